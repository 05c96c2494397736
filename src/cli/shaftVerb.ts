import { runSides } from "../check/tracks.ts";
import { InputError } from "../scene/error.ts";
import { resolveScene } from "../scene/resolve.ts";
import { type Extreme, type ShaftStudy, shaftStudy, USUAL_SPARE_mm } from "../studies/runningGear/shaft.ts";
import { loadScene } from "./loadScene.ts";
import { withTravel } from "./narrow.ts";
import { numberOf } from "./numbers.ts";
import { signed, tellEngine, tellLimit, tellState, tellTravel } from "./tellState.ts";
import type { VerbOptions, VerbOutcome } from "./verb.ts";

const ASSUMPTIONS = [
  "Lengths between the joints' centres; the bar's own ends, boots and end float are not in them. Measure at droop, ride and bump before you order.",
  "Plunge against angle at every step: --json, or curves with --pose.",
  "Rigid mounts but for the engine poses that the scene names, and all of the way to each.",
] as const;

/** `shaft`: the driveshafts over the whole travel and every engine pose, and which length to order. */
export async function runShaft(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const { name, document } = await loadScene(path);
  const spare_mm = numberOf("spare", options.spare, USUAL_SPARE_mm, 0);
  try {
    const scene = resolveScene(withTravel(document, options.travel), path);
    const studies = runSides(scene).map((run) => shaftStudy(scene, run, spare_mm));
    const found = studies.filter((study) => study !== null);
    if (found.length === 0)
      throw new InputError("missing-id", { path: "driveshaft" }, "the scene has no driveshaft", "one with its joints");
    const isPast = found.some(({ limits }) => limits.some(({ verdict }) => verdict === "clash"));
    const sides = Object.fromEntries(found.map(({ side, ...study }) => [side, study]));
    return {
      output: options.json
        ? `${JSON.stringify({ scene: name, sides, assumptions: ASSUMPTIONS })}\n`
        : `${[`${name}: driveshafts`, ...found.flatMap(tellSide), ...ASSUMPTIONS].join("\n")}\n`,
      status: isPast ? 1 : 0,
    };
  } catch (error) {
    throw error instanceof InputError ? error.in(path) : error;
  }
}

function tellSide(study: ShaftStudy): string[] {
  const { side, ride, shortest, longest, innerAngle, outerAngle, difference, limits } = study;
  const extreme = ({ value, at }: Extreme, unit: string) => `${value.toFixed(1)}${unit} ${tellState(at)}`;
  return [
    "",
    `${side}: ${ride.shaft_mm.toFixed(1)} mm at ride height, inner joint ${ride.innerAngle_deg.toFixed(1)}°, outer ${ride.outerAngle_deg.toFixed(1)}°`,
    `  shortest ${extreme(shortest, " mm")}`,
    `  longest ${extreme(longest, " mm")}`,
    `  inner joint up to ${extreme(innerAngle, "°")}`,
    `  outer joint up to ${extreme(outerAngle, "°")}`,
    `  the two angles differ by up to ${extreme(difference, "°")}`,
    ...limits.map(tellLimit),
    ...tellOrder(study),
    ...tellCrosses(study),
  ];
}

function tellOrder({ side, order }: ShaftStudy): string[] {
  const { used_mm, stroke_mm, spareWanted_mm, change_mm, changeRange_mm, bar_mm, barRange_mm } = order;
  if (stroke_mm === null || change_mm === null)
    return [
      `  Order: the shaft uses ${used_mm.toFixed(1)} mm of plunge; the joint needs ${(used_mm + 2 * spareWanted_mm).toFixed(1)} with ${spareWanted_mm} to spare at each end. Tell shortest_mm and longest_mm for the length to order.`,
    ];
  const spare_mm = (stroke_mm - used_mm) / 2;
  const range = changeRange_mm
    ? `from ${signed(changeRange_mm[0])} to ${signed(changeRange_mm[1])} mm keeps ${spareWanted_mm} mm at each end`
    : `no length keeps ${spareWanted_mm} mm at each end: ${used_mm.toFixed(1)} mm are used of ${stroke_mm.toFixed(1)}`;
  return [
    `  Order: ${signed(change_mm)} mm from the length as it is has ${spare_mm.toFixed(1)} mm to spare at either end; ${range}.`,
    ...(bar_mm === null
      ? ["  Tell bar_mm, what the bar alone measures, for the length itself."]
      : [
          `  Bar for the ${side}: ${bar_mm.toFixed(1)} mm${barRange_mm ? `, works from ${barRange_mm[0].toFixed(1)} to ${barRange_mm[1].toFixed(1)}` : ""}.`,
        ]),
  ];
}

function tellCrosses({ crosses }: ShaftStudy): string[] {
  if (!crosses) return [];
  const { inner, outer, atRide, worst, lag_deg } = crosses;
  const which =
    inner && outer
      ? "Both joints are single crosses, their forks in line"
      : `The ${inner ? "inner" : "outer"} joint is a single cross`;
  const percent = ({ fastest, slowest }: { fastest: number; slowest: number }) =>
    `${(100 * (fastest - slowest)).toFixed(2)} %`;
  const lag = [lag_deg.inner, lag_deg.outer].filter((value) => value !== null).map((value) => `${value.toFixed(2)}°`);
  return [
    `  ${which}: each turn the wheel's speed varies by ${percent(atRide)} at ride height (${lag.join(" and ")} ahead and behind), ${percent(worst)} at ${tellTravel(worst.at.travel_mm)}, engine ${tellEngine(worst.at)}.`,
  ];
}
