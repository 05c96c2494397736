import { formatLength, type LengthUnit } from "../../scene/length.ts";
import type { Side } from "../../scene/scene.ts";
import { FRAME_ENGLISH, type Standing } from "../paper/words.ts";
import type { Tone } from "./colours.ts";
import type { ViewName } from "./view.ts";

/**
 * Whatever one picture says beside its numbers, as plain texts, so that they can be sent to where it is drawn; what stands between double
 * braces is put in there.
 */
export interface PictureWords {
  /** The car, and what the builder says of the picture. */
  readonly title: string;
  readonly note: string | null;
  readonly date: string;
  /** As drawn or as built, and the revision. */
  readonly standing: string;
  /** What view it is, how high the wheels are, where the engine is. */
  readonly view: string;
  readonly state: string;
  readonly unit: LengthUnit;
  readonly units: string;
  readonly datum: string;
  /** {{ratio}}, {{dpi}} */
  readonly scale: string;
  readonly notToScale: string;
  /** {{length}} */
  readonly trueLength: string;
  /** {{gap}}, {{wanted}} */
  readonly apart: string;
  readonly overlap: string;
  readonly tone: Readonly<Record<Tone, string>>;
  readonly clash: string;
  readonly tight: string;
  readonly outlined: string;
  readonly hidden: string;
  /** Names of parts by id; a part without one goes by its id. */
  readonly parts: Readonly<Record<string, string>>;
  readonly cautions: readonly string[];
}

/** The text with its gaps filled. */
export function filled(text: string, values: Readonly<Record<string, string | number>>): string {
  return text.replace(/\{\{(\w+)\}\}/g, (gap, name: string) => String(values[name] ?? gap));
}

/** What is told of one picture in English. */
export interface EnglishFacts {
  readonly title: string;
  readonly note: string | null;
  readonly date: string;
  readonly standing: Standing;
  readonly revision: string | null;
  readonly view: ViewName;
  readonly travel_mm: Readonly<Partial<Record<Side, number>>>;
  readonly pose: string;
  readonly share: number;
  readonly unit: LengthUnit;
  readonly datumId: string | null;
}

const VIEWS: Readonly<Record<ViewName, string>> = {
  rear: "Rear view",
  front: "Front view",
  left: "Left side view",
  right: "Right side view",
  plan: "Plan view",
  below: "View from below",
  corner: "View from a corner",
};

export function englishWords(facts: EnglishFacts): PictureWords {
  const { title, note, date, standing, revision, view, unit, datumId } = facts;
  return {
    title,
    note,
    date,
    standing: [FRAME_ENGLISH.standing[standing], ...(revision === null ? [] : [`revision ${revision}`])].join(" · "),
    view: VIEWS[view],
    state: englishState(facts),
    unit,
    units: unit === "mm" ? "Millimetres" : "Inches",
    datum: datumId === null ? "Measured from axle line, centre plane, ground" : `Measured from ${datumId}`,
    scale: "Scale 1:{{ratio}} printed at {{dpi}} dots an inch, without fitting to the page",
    notToScale: "Not to scale: lengths read as written",
    trueLength: "{{length}} true",
    apart: "gap {{gap}}, wants a gap of {{wanted}}",
    overlap: "overlap {{gap}}, wants a gap of {{wanted}}",
    tone: { chassis: "chassis", powertrain: "engine", hub: "hub", arms: "arms and links", rubber: "tyre" },
    clash: "touches",
    tight: "nearer than it must be",
    outlined: "outline only",
    hidden: "what touches behind other parts shows through them",
    parts: {},
    cautions: [
      "Shape and movement only, rigid parts: it does not check strength. Prove gaps by hand with the spring out, on stands.",
      "Do not weld, heat or shorten forged or cast arms. Rules differ by country: ask before cutting.",
    ],
  };
}

const TRAVEL = (mm: number): string => formatLength(mm, "mm", { signed: true, decimals: Number.isInteger(mm) ? 0 : 1 });

function englishState({ travel_mm, pose, share }: EnglishFacts): string {
  const heights = Object.entries(travel_mm);
  const isLevel = heights.every(([, mm]) => mm === heights[0]?.[1]);
  const wheels = isLevel
    ? `travel ${TRAVEL(heights[0]?.[1] ?? 0)} mm`
    : heights.map(([side, mm]) => `${side} wheel ${TRAVEL(mm)} mm`).join(", ");
  const engine = pose === "rest" ? "engine at rest" : `engine at ${pose}`;
  return `${wheels}, ${engine}${pose === "rest" || share === 1 ? "" : `, ${Math.round(100 * share)} % of the way`}`;
}
