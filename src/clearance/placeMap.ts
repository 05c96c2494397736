/** Bits of three float64, for hashing. */
const place = new Float64Array(3);
const bits = new Int32Array(place.buffer);

/**
 * Numbers of vertices by where they are: open addressing in typed arrays, since patches have them by the ten thousand. Two
 * zeros of different sign are one place.
 */
export class PlaceMap {
  private size = 0;
  private mask = 1023;
  /** A vertex plus one to a slot; 0 where it is free. */
  private slots = new Int32Array(1024);
  private readonly positions: readonly number[];

  /** `positions`: three numbers a vertex; it may grow later. */
  constructor(positions: readonly number[]) {
    this.positions = positions;
  }

  /** −1 where no vertex is. */
  get(x: number, y: number, z: number): number {
    return this.slots[this.slotOf(x, y, z)]! - 1;
  }

  /** The vertex is where the positions say. */
  add(vertex: number): void {
    const { positions } = this;
    const slot = this.slotOf(positions[3 * vertex]!, positions[3 * vertex + 1]!, positions[3 * vertex + 2]!);
    const isNew = this.slots[slot] === 0;
    this.slots[slot] = vertex + 1;
    if (isNew && 2 * ++this.size > this.mask) this.grow();
  }

  private slotOf(x: number, y: number, z: number): number {
    const { slots, mask, positions } = this;
    place[0] = x + 0;
    place[1] = y + 0;
    place[2] = z + 0;
    let hash = 0;
    for (let k = 0; k < 6; k++) hash = Math.imul(hash ^ bits[k]!, 0x9e3779b1) ^ (hash >>> 15);
    let slot = (hash ^ (hash >>> 13)) & mask;
    for (let vertex = slots[slot]! - 1; vertex >= 0; vertex = slots[slot]! - 1) {
      const at = 3 * vertex;
      if (positions[at] === x && positions[at + 1] === y && positions[at + 2] === z) break;
      slot = (slot + 1) & mask;
    }
    return slot;
  }

  private grow(): void {
    const { slots } = this;
    this.mask = 2 * this.mask + 1;
    this.slots = new Int32Array(this.mask + 1);
    this.size = 0;
    for (const vertex of slots) if (vertex > 0) this.add(vertex - 1);
  }
}
