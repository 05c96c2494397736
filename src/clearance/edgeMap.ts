/** Of undirected edges between vertices a number each: open addressing in typed arrays, since patches have them by the ten thousand. */
export class EdgeMap {
  private size = 0;
  private mask = 8191;
  /** Three to a slot: the lower vertex plus one (0 where the slot is free), the higher vertex, the number. */
  private slots = new Int32Array(3 * 8192);

  /** −1 for an edge that has none. */
  get(a: number, b: number): number {
    const slot = this.slotOf(Math.min(a, b), Math.max(a, b));
    return this.slots[slot] === 0 ? -1 : this.slots[slot + 2]!;
  }

  set(a: number, b: number, value: number): void {
    const low = Math.min(a, b);
    const high = Math.max(a, b);
    const slot = this.slotOf(low, high);
    const isNew = this.slots[slot] === 0;
    this.slots[slot] = low + 1;
    this.slots[slot + 1] = high;
    this.slots[slot + 2] = value;
    if (isNew && 2 * ++this.size > this.mask) this.grow();
  }

  private slotOf(low: number, high: number): number {
    const { slots, mask } = this;
    let place = (Math.imul(low, 0x9e3779b1) ^ Math.imul(high, 0x85ebca6b)) >>> 0;
    place = (place ^ (place >>> 15)) & mask;
    while (slots[3 * place] !== 0 && (slots[3 * place] !== low + 1 || slots[3 * place + 1] !== high)) {
      place = (place + 1) & mask;
    }
    return 3 * place;
  }

  private grow(): void {
    const { slots } = this;
    this.mask = 2 * this.mask + 1;
    this.slots = new Int32Array(3 * (this.mask + 1));
    this.size = 0;
    for (let i = 0; i < slots.length; i += 3) {
      if (slots[i] !== 0) this.set(slots[i]! - 1, slots[i + 1]!, slots[i + 2]!);
    }
  }
}
