/** A measured state of a pair, linked to the next one in travel. */
export interface TrackState {
  readonly travel_mm: number;
  /** The smallest distance found, or minus the depth; Infinity where the state is only known to be far. */
  measured_mm: number;
  /** The clearance is proved to be no less; the same where the state is measured exactly. */
  clearance_mm: number;
  /** The nearest triangles and the direction between them: the hint for states close by. */
  triangleA: number;
  triangleB: number;
  direction: Float64Array;
  next: TrackState | null;
  /** No clearance between this state and the next is below it. */
  lower_mm: number;
  /** Its place in the heap, −1 while it is in none. */
  place: number;
}

/** Binary heap of states by the lower bound of the interval that begins at them. */
export class StateHeap {
  private readonly items: TrackState[] = [];

  lowest(): TrackState | null {
    return this.items[0] ?? null;
  }

  /** Takes a state in, or moves one that is there to where its bound now belongs. */
  put(state: TrackState): void {
    if (state.place < 0) {
      state.place = this.items.length;
      this.items.push(state);
    }
    this.sink(state);
    this.rise(state);
  }

  private rise(state: TrackState): void {
    while (state.place > 0) {
      const parent = this.items[(state.place - 1) >> 1]!;
      if (parent.lower_mm <= state.lower_mm) return;
      this.exchange(parent, state);
    }
  }

  private sink(state: TrackState): void {
    for (;;) {
      const left = this.items[2 * state.place + 1];
      const right = this.items[2 * state.place + 2];
      const lower = right !== undefined && left !== undefined && right.lower_mm < left.lower_mm ? right : left;
      if (lower === undefined || lower.lower_mm >= state.lower_mm) return;
      this.exchange(state, lower);
    }
  }

  private exchange(upper: TrackState, lower: TrackState): void {
    const place = upper.place;
    upper.place = lower.place;
    lower.place = place;
    this.items[upper.place] = upper;
    this.items[lower.place] = lower;
  }
}
