/** A list of numbers that grows without a box for each of them. */
export class Growing {
  #values = new Float64Array(1024);
  length = 0;

  push(value: number): void {
    if (this.length === this.#values.length) {
      const larger = new Float64Array(2 * this.length);
      larger.set(this.#values);
      this.#values = larger;
    }
    this.#values[this.length++] = value;
  }

  at(index: number): number {
    return this.#values[index]!;
  }

  values(): Float64Array {
    return this.#values.subarray(0, this.length);
  }
}
