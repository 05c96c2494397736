/** Jobs that can be told apart at one time: far more than a worker can be behind. */
const JOBS = 1024;
/** Workers that a pool may have. */
const PLACES = 64;

/**
 * What the pool and its workers tell each other without a message. Over shared memory a stop is seen at once, in the middle
 * of whatever a worker does; over memory of its own each side knows only what it has written itself. Jobs are numbered
 * upwards from 1, workers from 0.
 */
export class Signals {
  readonly memory: Int32Array;

  constructor(memory: Int32Array = new Int32Array(JOBS + PLACES)) {
    this.memory = memory;
  }

  static shared(): Signals {
    return new Signals(new Int32Array(new SharedArrayBuffer(4 * (JOBS + PLACES))));
  }

  /** The job is not wanted any more. */
  stop(job: number): void {
    Atomics.store(this.memory, job % JOBS, job);
  }

  isStopped(job: number): boolean {
    return Atomics.load(this.memory, job % JOBS) === job;
  }

  /** The worker has begun what cannot be stopped half-way but is kept for the next job: no reason to replace it. */
  beginKeeping(place: number): void {
    Atomics.add(this.memory, JOBS + place, 1);
  }

  endKeeping(place: number): void {
    Atomics.sub(this.memory, JOBS + place, 1);
  }

  isKeeping(place: number): boolean {
    return Atomics.load(this.memory, JOBS + place) > 0;
  }

  /** A new worker has taken the place of one that may have been ended in the middle of its work. */
  clear(place: number): void {
    Atomics.store(this.memory, JOBS + place, 0);
  }
}
