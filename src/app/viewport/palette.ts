import type { PartGroup } from "../../check/model.ts";
import type { Theme } from "../store/state.ts";

type Rgb = readonly [red: number, green: number, blue: number];

/** What a surface is made of, for its colour: the four groups, and rubber. The order is the shaders' own. */
export const TONES = ["chassis", "powertrain", "hub", "arms", "rubber"] as const;
export type Tone = (typeof TONES)[number];

/** Order of the groups in the mark buffer; 0 is the background. */
export const GROUP_NUMBER: Readonly<Record<PartGroup, number>> = { chassis: 1, powertrain: 2, hub: 3, arms: 4 };

/** What the mark buffer has in place of the group for parts at another state. */
export const GHOST_NUMBERS = [5, 6, 7] as const;

/** Ink width of background, groups and ghosts, CSS px, by that number. */
export const INK_WIDTHS_PX = [1.6, 1.9, 1.3, 1.1, 1.6, 1.3, 1.3, 1.3] as const;

/** Colours of the picture as the screen shows them (sRGB, 0..1): the shaders mix them as they are. */
export interface Palette {
  readonly tones: readonly Rgb[];
  readonly ink: Rgb;
  /** Line against the background; in the dark theme it is lighter than the parts. */
  readonly outline: Rgb;
  readonly sky: Rgb;
  readonly skyHigh: Rgb;
  readonly floor: Rgb;
  readonly shadow: number;
  readonly clash: Rgb;
  readonly clashDeep: Rgb;
  readonly tight: Rgb;
  readonly tightFar: Rgb;
  readonly dot: Rgb;
  readonly held: Rgb;
  readonly limit: Rgb;
  /** Room that is left, from little to much. */
  readonly room: readonly Rgb[];
  readonly glass: Rgb;
  readonly glassFill: number;
  readonly glassEdge: Rgb;
  readonly occlusion: number;
  /** How much the light on a surface lifts it: dark parts need less. */
  readonly shine: number;
}

function rgb(hex: string): Rgb {
  const value = Number.parseInt(hex.slice(1), 16);
  return [((value >> 16) & 255) / 255, ((value >> 8) & 255) / 255, (value & 255) / 255];
}

export const PALETTES: Readonly<Record<Theme, Palette>> = {
  daylight: {
    tones: ["#A7AEB0", "#D5CEBE", "#6F7476", "#F4F4ED", "#5E6263"].map(rgb),
    ink: rgb("#141B1C"),
    outline: rgb("#141B1C"),
    sky: rgb("#E9EDEC"),
    skyHigh: rgb("#F8F9F8"),
    floor: rgb("#D9DEDD"),
    shadow: 0.34,
    clash: rgb("#D55E00"),
    clashDeep: rgb("#8F3300"),
    tight: rgb("#0072B2"),
    tightFar: rgb("#B8DBF2"),
    dot: rgb("#FFFFFF"),
    held: rgb("#F0E442"),
    limit: rgb("#E69F00"),
    room: ["#CDEBDF", "#8FD3BA", "#45B592", "#00875F", "#00563C"].map(rgb),
    glass: rgb("#404C4F"),
    glassFill: 0.07,
    glassEdge: rgb("#1B2324"),
    occlusion: 0.85,
    shine: 1,
  },
  garage: {
    tones: ["#60676B", "#8B8578", "#414649", "#BDBEB8", "#2D3031"].map(rgb),
    ink: rgb("#080B0C"),
    outline: rgb("#66757A"),
    sky: rgb("#111516"),
    skyHigh: rgb("#171C1E"),
    floor: rgb("#101415"),
    shadow: 0.6,
    clash: rgb("#FF7A2C"),
    clashDeep: rgb("#B8470A"),
    tight: rgb("#56B4E9"),
    tightFar: rgb("#2C6488"),
    dot: rgb("#E6F4FC"),
    held: rgb("#F0E442"),
    limit: rgb("#F5B52E"),
    room: ["#28584A", "#2B7F68", "#2FA583", "#4FD1AB", "#B4F5DE"].map(rgb),
    glass: rgb("#9EADAD"),
    glassFill: 0.1,
    glassEdge: rgb("#93A1A3"),
    occlusion: 0.8,
    shine: 0.9,
  },
};
