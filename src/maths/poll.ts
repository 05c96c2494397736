/**
 * Called every few milliseconds by work that may take long. It may throw, which ends that work and leaves what does it
 * ready for the next call; it may not ask anything of the kernel itself.
 */
export type Poll = () => void;

/** Counts work and polls when enough of it is done. */
export class Pacer {
  private readonly poll: Poll | undefined;
  private readonly stretch: number;
  private rest: number;

  /** Polls about every `stretch` units of work; never without a poll. */
  constructor(poll: Poll | undefined, stretch: number) {
    this.poll = poll;
    this.stretch = stretch;
    this.rest = stretch;
  }

  spend(work: number): void {
    this.rest -= work;
    if (this.rest <= 0) this.pause();
  }

  private pause(): void {
    this.rest = this.stretch;
    this.poll?.();
  }
}
