import { limitsOf } from "../check/limits.ts";
import type { LimitName, LimitVerdict } from "../check/result.ts";
import { runSides } from "../check/tracks.ts";
import { InputError } from "../scene/error.ts";
import { resolveScene } from "../scene/resolve.ts";
import { LEAST_LINK_deg, type SpringStudy, springStudy } from "../studies/runningGear/spring.ts";
import { firstEnd, type TravelEnd, type TravelEnds, travelEnds } from "../studies/runningGear/travelEnds.ts";
import { loadScene } from "./loadScene.ts";
import { withTravel } from "./narrow.ts";
import { orDash, signed, tellEngine, tellLimit, tellTable, tellTravel } from "./tellState.ts";
import type { VerbOptions, VerbOutcome } from "./verb.ts";

const ASSUMPTIONS = [
  "Ratio: the damper's shortening per wheel travel; the inverse, wheel per damper, is in use too and is one over it.",
  "Wheel rate: spring rate times ratio squared, and spring force times the ratio's rate of change. Bump stop, bushes and anti-roll bar are not in it.",
  "Static, without friction; ride frequency undamped, the tyre rigid.",
  "Springs store energy: use compressors and stands.",
] as const;

const OWN_LIMITS: readonly LimitName[] = ["damper-length", "stop", "strap", "coil-bind"];

interface SideTold {
  readonly study: SpringStudy;
  readonly ends: TravelEnds;
  readonly limits: readonly LimitVerdict[];
}

/** `spring`: damper, spring, stop, strap and bar over the travel, and what ends it each way. */
export async function runSpring(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const { name, document } = await loadScene(path);
  try {
    const scene = resolveScene(withTravel(document, options.travel), path);
    if (!scene.damper && !scene.antiRollBar)
      throw new InputError("missing-id", { path: "damper" }, "the scene has neither damper nor bar", "one of them");
    const told = runSides(scene).map(
      (run): SideTold => ({
        study: springStudy(scene, run),
        ends: travelEnds(scene, run.side),
        limits: limitsOf(scene, run, scene.powertrain.poses).filter(({ what }) => OWN_LIMITS.includes(what)),
      }),
    );
    const sides = Object.fromEntries(
      told.map(({ study: { side, ...study }, ends: { side: _side, ...ends }, limits }) => [
        side,
        { ...study, ends, limits },
      ]),
    );
    const { bump_mm, droop_mm } = scene.travel;
    const isShort = told.some(({ ends }) => {
      const [up, down] = [firstEnd(ends.up), firstEnd(ends.down)];
      return (up !== null && up.at.travel_mm < bump_mm) || (down !== null && down.at.travel_mm > -droop_mm);
    });
    return {
      output: options.json
        ? `${JSON.stringify({ scene: name, sides, assumptions: ASSUMPTIONS })}\n`
        : `${[`${name}: damper, spring and bar`, ...told.flatMap(tellSide), "", ...ASSUMPTIONS].join("\n")}\n`,
      status: isShort ? 1 : 0,
    };
  } catch (error) {
    throw error instanceof InputError ? error.in(path) : error;
  }
}

function tellSide({ study, ends, limits }: SideTold): string[] {
  const { side, ride, curve } = study;
  return [
    "",
    ride.damper_mm === null
      ? `${side}: no damper`
      : `${side}: damper ${ride.damper_mm.toFixed(1)} mm at ride height, ratio ${ride.ratio!.toFixed(3)}`,
    ...tellRide(study),
    ...tellWay("up", ends.up, ends.lookedTo_mm),
    ...tellWay("down", ends.down, ends.lookedFrom_mm),
    ...limits.map(tellLimit),
    ...tellBar(study),
    ...(ride.damper_mm === null
      ? []
      : [
          "",
          "  mm, N and N/mm; * the bump stop presses as well:",
          ...tellTable(
            [
              "travel",
              "damper",
              "ratio",
              "spring",
              "spring force",
              "at the wheel",
              "wheel rate",
              "of it by ratio's change",
            ],
            curve.map((state) => [
              `${state.travel_mm.toFixed(1)}${state.isOnStop ? "*" : ""}`,
              orDash(state.damper_mm),
              orDash(state.ratio, 3),
              orDash(state.spring_mm),
              orDash(state.springForce_N, 0),
              orDash(state.wheelForce_N, 0),
              orDash(state.wheelRate_N_per_mm, 2),
              orDash(state.ofRatio_N_per_mm, 2),
            ]),
          ),
        ]),
  ];
}

function tellRide(study: SpringStudy): string[] {
  const { ride, staticLoad_N, sprungMass_kg, takesAllAsSprung, frequency_Hz, pressedAtRide_mm, pressedOpen_mm } = study;
  const lines: string[] = [];
  if (ride.damper_mm === null) return lines;
  if (staticLoad_N === null) lines.push("  Static load, frequency and preload: tell loads.cornerMass_kg.");
  else
    lines.push(
      `  static load ${staticLoad_N.toFixed(0)} N, of it sprung ${sprungMass_kg!.toFixed(0)} kg${takesAllAsSprung ? " (all of it: tell loads.unsprung_kg, the frequency reads low without)" : ""}`,
    );
  if (ride.springForce_N !== null) lines.push(`  spring force at ride height ${ride.springForce_N.toFixed(0)} N`);
  if (ride.wheelRate_N_per_mm !== null)
    lines.push(
      `  wheel rate ${ride.wheelRate_N_per_mm.toFixed(2)} N/mm (${ride.ofSpring_N_per_mm!.toFixed(2)} of the spring, ${signed(ride.ofRatio_N_per_mm!, 2)} of the changing ratio)${frequency_Hz === null ? "" : `, ride frequency ${frequency_Hz.toFixed(2)} Hz`}`,
    );
  if (pressedAtRide_mm === null) lines.push("  Preload: tell damper.springRate_N_per_mm and springFree_mm.");
  else
    lines.push(
      `  preload: the spring is pressed ${pressedAtRide_mm.toFixed(1)} mm at ride height, ${ride.spring_mm!.toFixed(1)} mm long${study.isMeasured ? " as measured" : ""}; ${pressedOpen_mm! >= 0 ? `${pressedOpen_mm!.toFixed(1)} mm with the damper open` : `${(-pressedOpen_mm!).toFixed(1)} mm off its seat with the damper open`}`,
    );
  if (study.carriesMore_kg !== null)
    lines.push(
      `  as measured the spring carries ${Math.abs(study.carriesMore_kg).toFixed(0)} kg ${study.carriesMore_kg < 0 ? "less" : "more"} than rides on this wheel`,
    );
  return lines;
}

function tellWay(way: "up" | "down", ends: readonly TravelEnd[], looked_mm: number): string[] {
  const first = firstEnd(ends);
  const soft = ends.filter(
    ({ isSoft, at }) => isSoft && (!first || Math.abs(at.travel_mm) <= Math.abs(first.at.travel_mm)),
  );
  const named = ({ what, joint, limit, at }: TravelEnd) =>
    `${ENDS[what]}${joint === undefined ? "" : ` (${joint})`}${limit === null ? "" : ` at ${limit.toFixed(1)}`}, ${tellTravel(at.travel_mm)}, engine ${tellEngine(at)}`;
  const rest = ends.filter((end) => !end.isSoft && end !== first);
  return [
    `  ${way}: ${first ? named(first) : `nothing ends it as far as ${tellTravel(looked_mm)}`}`,
    ...soft.map((end) => `    before it ${named(end)}`),
    ...rest.map((end) => `    after it ${named(end)}`),
  ];
}

const ENDS: Readonly<Record<TravelEnd["what"], string>> = {
  "shaft-length": "the driveshaft's plunge is used up",
  "inner-angle": "the shaft's inner joint is at its angle",
  "outer-angle": "the shaft's outer joint is at its angle",
  "damper-length": "the damper is at its end",
  stop: "the bump stop is solid",
  strap: "the strap is tight",
  "coil-bind": "the spring's turns touch",
  "joint-tilt": "a joint is at its tilt",
  "joint-twist": "a joint is at its twist",
  binds: "the corner locks",
  "stop-touched": "the bump stop is touched",
  "spring-loose": "the spring comes off its seat",
};

function tellBar({ bar }: SpringStudy): string[] {
  if (!bar) return [];
  const [first, last] = [bar.curve[0]!, bar.curve.at(-1)!];
  const { nearest, isNearCentre } = bar;
  const warning = isNearCentre
    ? `: below ${LEAST_LINK_deg}° (common practice, no source) it is near going over centre`
    : "";
  return [
    `  bar: the arm turns from ${first.turn_deg.toFixed(2)}° at ${tellTravel(first.travel_mm)} to ${last.turn_deg.toFixed(2)}° at ${tellTravel(last.travel_mm)}; with the other wheel at ride height that is the bar's twist`,
    `  drop link ${nearest.link_deg.toFixed(1)}° to the arm at ${tellTravel(nearest.travel_mm)}, lever ${nearest.lever_mm.toFixed(1)} mm${warning}`,
  ];
}
