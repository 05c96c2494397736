const EMPTY = -1;
/** Of the slots so many are used at most, before there are twice as many. */
const FULLEST = 0.5;

/** Grows a list of float32 vertices in which equal positions, of those that it was told of, are one vertex. */
export class VertexWeld {
  private coordinates: Float32Array;
  private length: number;
  /** Vertices by their place, open addressing. */
  private slots = new Int32Array(256).fill(EMPTY);
  private used = 0;
  private readonly place = new Float32Array(3);
  private readonly bits = new Int32Array(this.place.buffer);

  /** Starts from vertices that are there already (3 coordinates each), none of which is known by its place yet. */
  constructor(positions: Float32Array) {
    this.length = positions.length;
    this.coordinates = new Float32Array(positions.length + 768);
    this.coordinates.set(positions);
  }

  /** Makes a vertex that is there known by its place. */
  know(vertex: number): void {
    const { coordinates } = this;
    const at = 3 * vertex;
    const slot = this.slotOf(coordinates[at]!, coordinates[at + 1]!, coordinates[at + 2]!);
    if (this.slots[slot] === EMPTY) this.keep(slot, vertex);
  }

  /** The vertex at a place, rounded to float32; a new one if none is known there. */
  at(x: number, y: number, z: number): number {
    const slot = this.slotOf(x, y, z);
    const found = this.slots[slot]!;
    if (found !== EMPTY) return found;
    if (this.length + 3 > this.coordinates.length) {
      const wider = new Float32Array(2 * this.coordinates.length);
      wider.set(this.coordinates);
      this.coordinates = wider;
    }
    const vertex = this.length / 3;
    this.coordinates.set(this.place, this.length);
    this.length += 3;
    this.keep(slot, vertex);
    return vertex;
  }

  positions(): Float32Array {
    return this.coordinates.slice(0, this.length);
  }

  /** Where the vertex at a place is listed, or would be; `place` is then that place. −0 and 0 are one place. */
  private slotOf(x: number, y: number, z: number): number {
    const { place, bits, slots, coordinates } = this;
    place[0] = x + 0;
    place[1] = y + 0;
    place[2] = z + 0;
    let hash = Math.imul(bits[0]!, 0x9e3779b1) ^ Math.imul(bits[1]!, 0x85ebca6b) ^ Math.imul(bits[2]!, 0xc2b2ae35);
    hash ^= hash >>> 15;
    const last = slots.length - 1;
    for (let slot = hash & last; ; slot = (slot + 1) & last) {
      const at = 3 * slots[slot]!;
      if (at < 0) return slot;
      if (coordinates[at] === place[0] && coordinates[at + 1] === place[1] && coordinates[at + 2] === place[2])
        return slot;
    }
  }

  private keep(slot: number, vertex: number): void {
    this.slots[slot] = vertex;
    this.used++;
    if (this.used <= FULLEST * this.slots.length) return;
    const before = this.slots;
    const { coordinates } = this;
    this.slots = new Int32Array(2 * before.length).fill(EMPTY);
    for (const each of before) {
      if (each === EMPTY) continue;
      const at = 3 * each;
      this.slots[this.slotOf(coordinates[at]!, coordinates[at + 1]!, coordinates[at + 2]!)] = each;
    }
  }
}
