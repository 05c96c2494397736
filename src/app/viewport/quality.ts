/** 2: all; 1: fewer samples; 0: no occlusion, coarse on fine screens. */
export type Quality = 0 | 1 | 2;

/** Slower frames than this feel like a drag that sticks. */
const SLOW_FRAME_MS = 34;
/** A picture at rest may take longer, but not so long that the next touch waits for it. */
const SLOW_STILL_MS = 1200;
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
      if (frame_ms > SLOW_STILL_MS) this.#still = 1;
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

/** Along one side of a CSS pixel: samples of the layers, and pixels that are put together from them. */
export interface Sampling {
  readonly samples: number;
  readonly pixels: number;
}

/** Several samples a pixel cost little, for their fragments are short; the putting together is what takes time. */
export function sampling(quality: Quality, dpr: number): Sampling {
  if (quality === 0) return { samples: 2, pixels: Math.min(dpr, 1) };
  return { samples: Math.max(2, dpr * (quality === 1 ? 1.25 : 1.5)), pixels: dpr };
}

export const OCCLUSION_SAMPLES: Readonly<Record<Quality, number>> = { 0: 0, 1: 8, 2: 18 };
