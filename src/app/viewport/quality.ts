/** 2: all; 1: fewer samples; 0: one sample a pixel, no occlusion. */
export type Quality = 0 | 1 | 2;

/** Slower frames than this feel like a drag that sticks. */
const SLOW_FRAME_MS = 34;
/** A picture at rest may take longer, but not so long that the next touch waits for it. */
const SLOW_STILL_MS = 900;
/** A level's programs are compiled in its first frame, which says nothing about its speed. */
const WARM_UP_FRAMES = 1;

/** Steps the picture's quality down where the machine is slow: at once where far too slow, or after three slow frames of four. */
export class QualityGovernor {
  readonly #startMoving: Quality;
  #moving: Quality;
  #still: Quality = 2;
  #slow: boolean[] = [];
  #warmUp = WARM_UP_FRAMES;

  /** `software`: the pictures are computed without a graphics card; movements start at the lowest level. */
  constructor(software: boolean) {
    this.#startMoving = software ? 0 : 2;
    this.#moving = this.#startMoving;
  }

  get moving(): Quality {
    return this.#moving;
  }

  get still(): Quality {
    return this.#still;
  }

  /** How long nothing moves before the picture at rest is drawn, ms: longer where that holds up the next movement. */
  get restAfter_ms(): number {
    return this.#moving === 0 ? 350 : 140;
  }

  /** How long the machine took over a frame of the given quality, from its start to its last pixel. */
  note(frame_ms: number, quality: Quality, moving: boolean): void {
    if (this.#warmUp > 0) {
      this.#warmUp--;
      return;
    }
    if (!moving) {
      if (quality === this.#still && frame_ms > SLOW_STILL_MS) this.#still = lower(this.#still);
      return;
    }
    if (quality !== this.#moving) return;
    this.#slow.push(frame_ms > SLOW_FRAME_MS);
    if (this.#slow.length > 4) this.#slow.shift();
    if (frame_ms > SLOW_FRAME_MS * 4) this.#stepTo(0);
    else if (this.#slow.filter(Boolean).length >= 3) this.#stepTo(lower(quality));
  }

  /** After a change of size or a new context the machine gets a fresh chance. */
  reset(): void {
    this.#moving = this.#startMoving;
    this.#still = 2;
    this.#slow = [];
    this.#warmUp = WARM_UP_FRAMES;
  }

  #stepTo(quality: Quality): void {
    this.#moving = quality;
    this.#slow = [];
    this.#warmUp = WARM_UP_FRAMES;
  }
}

function lower(quality: Quality): Quality {
  return quality === 2 ? 1 : 0;
}

/** Samples along one side of a CSS pixel, given the screen's pixels per CSS pixel. */
export function sampling(quality: Quality, dpr: number): number {
  if (quality === 0) return Math.min(dpr, 1);
  const fine = dpr < 1.5;
  if (quality === 1) return fine ? 1.5 : dpr;
  return fine ? 2 : dpr * 1.5;
}

export const OCCLUSION_SAMPLES: Readonly<Record<Quality, number>> = { 0: 0, 1: 9, 2: 18 };
