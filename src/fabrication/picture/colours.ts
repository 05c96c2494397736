import type { PartGroup } from "../../check/model.ts";

/** Red, green, blue, 0 to 255. */
export type Rgb = readonly [red: number, green: number, blue: number];

/** What a surface is made of, for its colour: the four groups of parts, and rubber. */
export type Tone = PartGroup | "rubber";

/** The same as in daylight on the screen, so that a picture says what the view says. */
export const TONES: Readonly<Record<Tone, Rgb>> = {
  chassis: [0xa7, 0xae, 0xb0],
  powertrain: [0xd5, 0xce, 0xbe],
  hub: [0x6f, 0x74, 0x76],
  arms: [0xf4, 0xf4, 0xed],
  rubber: [0x5e, 0x62, 0x63],
};

export const PAPER: Rgb = [255, 255, 255];
export const INK: Rgb = [0x14, 0x1b, 0x1c];
/** Of parts that are only outlined. */
export const FAINT: Rgb = [0x6b, 0x77, 0x7a];

/** Surface that touches: deeper is darker, and hatched. */
export const CLASH: Rgb = [0xd5, 0x5e, 0x00];
export const CLASH_DEEP: Rgb = [0x8f, 0x33, 0x00];
/** Surface that is nearer than it must be: farther is paler, and dotted. */
export const TIGHT: Rgb = [0x00, 0x72, 0xb2];
export const TIGHT_FAR: Rgb = [0xb8, 0xdb, 0xf2];

/** Depth from which surface is as dark as it gets, mm. */
export const DEEP_mm = 9;
/** Between the lines of the hatch and the dots, and how thick they are, mm on paper. */
export const HATCH_mm = { pitch: 1.5, line: 0.28 } as const;
export const DOTS_mm = { pitch: 1.25, radius: 0.27 } as const;

export function mixed(a: Rgb, b: Rgb, share: number): Rgb {
  return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share, a[2] + (b[2] - a[2]) * share];
}

export function hexOf(colour: Rgb): string {
  return `#${colour.map((value) => Math.round(value).toString(16).padStart(2, "0")).join("")}`;
}
