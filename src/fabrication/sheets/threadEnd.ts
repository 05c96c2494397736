import type { TubeEnd } from "../../scene/tubeEnds.ts";

export type RodEnd = Extract<TubeEnd, { kind: "rod end" }>;

/** Thread that must be in, in diameters: common practice, no source. */
export const LEAST_ENGAGED = 1.5;
/** Height of a thin nut in diameters: ISO 4035 (M8 4, M10 5, M12 6, M16 8, M20 10 mm; from memory). */
const THIN_NUT = 0.5;

export interface ThreadEnd {
  /** Thread in the adapter as it is set. */
  readonly engaged_mm: number;
  /** Least and most that may be in: at least 1.5 diameters, at most what adapter and shank have beside the lock nut. */
  readonly least_mm: number;
  readonly most_mm: number;
  /** From the end of the tube to the eye's centre. */
  readonly reach_mm: number;
  /** How much longer and shorter this end can make it from where it is set; below nothing where it is set wrongly. */
  readonly longer_mm: number;
  readonly shorter_mm: number;
  /** `short`: no place of the thread has enough in and leaves room for the lock nut; `set`: it is set outside of what may be. */
  readonly fault: "short" | "set" | null;
}

/**
 * A rod end in its adapter. The eye's centre stands eye − engaged beyond the adapter's face, which stands `adapter_mm` beyond the tube. In it goes 1.5
 * diameters at least; at most as deep as the adapter is threaded, and until the lock nut has just its own height of thread left.
 */
export function threadEnd({
  thread_mm,
  eye_mm,
  shank_mm,
  adapter_mm,
  depth_mm,
  nut_mm,
  engaged_mm,
}: RodEnd): ThreadEnd {
  const nut = nut_mm ?? THIN_NUT * thread_mm;
  const least = LEAST_ENGAGED * thread_mm;
  const most = Math.min(depth_mm, (shank_mm ?? Number.POSITIVE_INFINITY) - nut);
  const engaged = engaged_mm ?? (least + most) / 2;
  return {
    engaged_mm: engaged,
    least_mm: least,
    most_mm: most,
    reach_mm: eye_mm - engaged + (adapter_mm ?? 0),
    longer_mm: engaged - least,
    shorter_mm: most - engaged,
    fault: most < least ? "short" : engaged < least || engaged > most ? "set" : null,
  };
}

/** "M16 × 1.5", with LH where the thread is left-handed. */
export function threadName({ thread_mm, pitch_mm, hand }: Pick<RodEnd, "thread_mm" | "pitch_mm" | "hand">): string {
  return `M${thread_mm} × ${pitch_mm}${hand === "left" ? " LH" : ""}`;
}
