import type { Verdict } from "../../check/result.ts";
import { formatLength } from "../../scene/length.ts";
import type { Side } from "../../scene/scene.ts";
import { FRAME_ENGLISH, type Standing } from "../paper/words.ts";
import type { Tone } from "./colours.ts";
import type { ViewName } from "./view.ts";

/** Whatever a picture says: the app gives its own language, the terminal English. */
export interface PictureWords {
  /** A length with the unit that the picture says its numbers are in. */
  length(mm: number): string;
  angle(deg: number): string;
  /** What is drawn of a length that does not lie in the picture's plane. */
  trueLength(length: string): string;
  part(id: string): string;
  readonly view: Readonly<Record<ViewName, string>>;
  /** Which wheel is how high, and where the engine is. */
  state(travel_mm: Readonly<Partial<Record<Side, number>>>, pose: string, share: number): string;
  gap(clearance_mm: number, required_mm: number): string;
  readonly tone: Readonly<Record<Tone, string>>;
  readonly verdict: Readonly<Record<Extract<Verdict, "clash" | "tight">, string>>;
  readonly outlined: string;
  readonly hidden: string;
  scale(ratio: number, dpi: number): string;
  readonly notToScale: string;
  readonly units: string;
  datum(id: string | null): string;
  revision(revision: string): string;
  readonly standing: Readonly<Record<Standing, string>>;
  readonly cautions: readonly string[];
}

const TRAVEL = (mm: number): string => formatLength(mm, "mm", { signed: true, decimals: Number.isInteger(mm) ? 0 : 1 });

export function englishWords(unit: "mm" | "in" = "mm"): PictureWords {
  const length = (mm: number): string => formatLength(mm, unit);
  return {
    length,
    angle: (deg) => `${deg.toFixed(1)}°`,
    trueLength: (text) => `${text} true`,
    part: (id) => id,
    view: {
      rear: "Rear view",
      front: "Front view",
      left: "Left side view",
      right: "Right side view",
      plan: "Plan view",
      below: "View from below",
      corner: "View from a corner",
    },
    state(travel_mm, pose, share) {
      const heights = Object.entries(travel_mm);
      const isLevel = heights.every(([, mm]) => mm === heights[0]?.[1]);
      const wheels = isLevel
        ? `travel ${TRAVEL(heights[0]?.[1] ?? 0)} mm`
        : heights.map(([side, mm]) => `${side} wheel ${TRAVEL(mm)} mm`).join(", ");
      const engine = pose === "rest" ? "engine at rest" : `engine at ${pose}`;
      return `${wheels}, ${engine}${pose === "rest" || share === 1 ? "" : `, ${Math.round(100 * share)} % of the way`}`;
    },
    gap(clearance_mm, required_mm) {
      const told = clearance_mm < 0 ? `overlap ${length(-clearance_mm)}` : `gap ${length(clearance_mm)}`;
      return `${told}, wants a gap of ${length(required_mm)}`;
    },
    tone: { chassis: "chassis", powertrain: "engine", hub: "hub", arms: "arms and links", rubber: "tyre" },
    verdict: { clash: "touches", tight: "nearer than it must be" },
    outlined: "outline only",
    hidden: "touching surface behind other parts shows through them",
    scale: (ratio, dpi) => `Scale 1:${ratio} printed at ${dpi} dots an inch, without fitting to the page`,
    notToScale: "Not to scale: lengths read as written",
    units: unit === "mm" ? "Millimetres" : "Inches",
    datum: (id) => (id === null ? "Datum: axle line, centre plane, ground" : `Datum: ${id}`),
    revision: (revision) => `Revision ${revision}`,
    standing: FRAME_ENGLISH.standing,
    cautions: [
      "Shape and movement only, rigid parts: it does not check strength. Prove gaps by hand with the spring out, on stands.",
      "Do not weld, heat or shorten forged or cast arms. Rules differ by country: ask before cutting.",
    ],
  };
}
