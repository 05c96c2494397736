import { isClashing } from "../check/check.ts";
import { InputError } from "../scene/error.ts";
import type { Beyond } from "../studies/together/beyond.ts";
import type { CrossingPair } from "../studies/together/crossing.ts";
import { judgeTogether, type Together } from "../studies/together/together.ts";
import { loadScene } from "./loadScene.ts";
import { withTravel } from "./narrow.ts";
import { tellEngine, tellState, tellTravel } from "./tellState.ts";
import type { VerbOptions, VerbOutcome } from "./verb.ts";

/** `together`: what may happen together and must be clear, and what cannot. */
export async function runTogether(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const { document, meshFiles, name } = await loadScene(path);
  try {
    const result = judgeTogether(withTravel(document, options.travel), meshFiles, name);
    const { check, crossing, cannotHappen, bar } = result;
    const status = isClashing(check) || crossing.some(({ verdict }) => verdict === "clash") ? 1 : 0;
    if (!options.json) return { output: tellTogether(name, result), status };
    const mustClear = check.pairs
      .filter(({ verdict }) => verdict === "clash" || verdict === "tight")
      .map(({ side, a, b, required_mm, clearance_mm, verdict, at }) => ({
        side,
        a,
        b,
        required_mm,
        clearance_mm,
        verdict,
        at,
      }));
    const told = { study: "together", scene: name, mustClear, limits: check.limits, crossing, cannotHappen, bar };
    return { output: `${JSON.stringify(told)}\n`, status };
  } catch (error) {
    throw error instanceof InputError ? error.in(path) : error;
  }
}

function tellTogether(name: string, { check, crossing, cannotHappen, bar }: Together): string {
  const open = check.pairs.filter(({ verdict }) => verdict === "clash" || verdict === "tight");
  const lines = [
    `${name}: must clear, every engine pose within its travel: ${open.length === 0 ? "all does" : ""}`.trimEnd(),
    ...open.map(
      ({ side, a, b, verdict, clearance_mm, required_mm, at }) =>
        `${verdict.padEnd(6)} ${side} ${a} / ${b}: ${clearance_mm.toFixed(1)} mm of ${required_mm}, ${tellState(at)}`,
    ),
    `one wheel at any height while the other is at any other: ${crossing.length === 0 ? "no part of one side comes near one of the other" : ""}`.trimEnd(),
    ...crossing.map(tellCrossing),
    ...(bar
      ? [
          `the anti-roll bar is wound up by ${bar.wound_deg.toFixed(1)}° at most, left ${tellTravel(bar.at.left_mm)} and right ${tellTravel(bar.at.right_mm)}`,
        ]
      : []),
    `cannot happen together, as the scene says: ${cannotHappen.length === 0 ? "nothing would be closer there" : ""}`.trimEnd(),
    ...cannotHappen.map(tellBeyond),
    "Geometry only, rigid parts: prove it by hand with the spring out, on stands.",
  ];
  return `${lines.join("\n")}\n`;
}

function tellCrossing({ left, right, verdict, clearance_mm, required_mm, at }: CrossingPair): string {
  return `${verdict.padEnd(6)} left ${left} / right ${right}: ${clearance_mm.toFixed(1)} mm of ${required_mm}, left ${tellTravel(at.left_mm)}, right ${tellTravel(at.right_mm)}, engine ${tellEngine({ travel_mm: at.left_mm, pose: at.pose })}`;
}

function tellBeyond({ side, what, kind, value, wanted, at, within_mm: [from, to], mustClear }: Beyond): string {
  const band = `${at.pose} only from ${tellTravel(from)} to ${tellTravel(to)}`;
  const there = kind === "pair" ? `${value.toFixed(1)} mm of ${wanted}` : `${value.toFixed(1)}, limit ${wanted}`;
  const must = mustClear
    ? `; where it must be clear: ${mustClear.clearance_mm.toFixed(1)} mm, ${mustClear.verdict}`
    : "";
  return `would be ${side} ${what}: ${there}, ${tellState(at)} (${band})${must}`;
}
