import { isClashing } from "../check/check.ts";
import { limitName } from "../check/limits.ts";
import type { CheckResult, LimitName, LimitVerdict, PairVerdict, StateAt } from "../check/result.ts";
import { InputError } from "../scene/error.ts";
import { Machine, type Watch } from "../work/machine.ts";
import { loadScene } from "./loadScene.ts";
import { withTravel } from "./narrow.ts";
import type { VerbOptions, VerbOutcome } from "./verb.ts";

const PATIENT: Watch = { onProgress() {}, isStopped: () => false, breathe: () => Promise.resolve() };

/** `check`: what touches, as sentences or as the JSON of the command-line contract. */
export async function runCheck(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const { name, document, meshFiles } = await loadScene(path);
  const machine = new Machine();
  try {
    const prepared = machine.prepare(withTravel(document, options.travel), meshFiles, { onlyPose: options.pose });
    const result = await machine.check(prepared, name, PATIENT);
    return {
      output: options.json ? `${JSON.stringify(contractOf(result))}\n` : tellCheck(result),
      status: isClashing(result) ? 1 : 0,
    };
  } catch (error) {
    throw error instanceof InputError ? error.in(path) : error;
  }
}

/** The result as the contract has it: what only the app's plots need stays out. */
function contractOf(result: CheckResult): unknown {
  return {
    ...result,
    pairs: result.pairs.map(({ profile: _profile, keys: _keys, byPose: _byPose, farther: _farther, ...pair }) => pair),
  };
}

export function tellCheck({ scene, pairs, limits, summary }: CheckResult): string {
  const lines = [
    `${scene}: ${summary.clash} clash, ${summary.tight} tight, ${summary.clear} clear, ${summary.accepted} accepted (each side's pairs counted)`,
    ...pairs.filter(({ verdict }) => verdict === "clash" || verdict === "tight").map(tellPair),
    ...limits.map(tellLimit),
    "Geometry only, rigid parts: prove it by hand with the spring out, on stands.",
  ];
  return `${lines.join("\n")}\n`;
}

function tellPair({ side, a, b, clearance_mm, verdict, at, required_mm, within_mm, open }: PairVerdict): string {
  const gap = clearance_mm < 0 ? `overlap ${(-clearance_mm).toFixed(1)} mm` : `gap ${clearance_mm.toFixed(1)} mm`;
  // chassis and powertrain do not follow the wheel
  const where = side === "both" ? "whatever the travel" : `at ${tellTravel(at.travel_mm)}`;
  return `${verdict.padEnd(6)} ${side} ${a} / ${b}: ${gap} ${where}, engine ${tellEngine(at)} (wants a gap of ${required_mm} mm)${within_mm === undefined ? "" : `, told ${within_mm} mm nearer than checked`}${open === undefined ? "" : `, ${open.join(" and ")} open: surface only`}`;
}

const LIMIT_UNITS: Readonly<Record<LimitName, string>> = {
  "shaft-length": "mm",
  "inner-angle": "°",
  "outer-angle": "°",
  "damper-length": "mm",
  stop: "mm",
  strap: "mm",
  "coil-bind": "mm",
  "joint-tilt": "°",
  "joint-twist": "°",
  binds: "mm of travel",
};

function tellLimit(told: LimitVerdict): string {
  const { side, what, verdict, value, limit, at, passedAt_mm } = told;
  const unit = LIMIT_UNITS[what];
  const past = verdict === "clash";
  const isLeast = past ? value < limit : value > limit;
  const from = passedAt_mm === null || what === "binds" ? "" : `, from ${tellTravel(passedAt_mm)} on`;
  const bound = what === "binds" ? "wanted travel" : isLeast ? "at least" : "at most";
  return `${past ? "PAST  " : "ok    "} ${side} ${limitName(told)}: ${value.toFixed(1)} ${unit}, ${bound} ${limit.toFixed(1)}, at ${tellTravel(at.travel_mm)}, engine ${tellEngine(at)}${from}`;
}

function tellEngine({ pose, share }: StateAt): string {
  return share === undefined ? pose : `${Math.round(100 * share)} % of the way to ${pose}`;
}

function tellTravel(travel_mm: number): string {
  if (Math.abs(travel_mm) < 0.05) return "ride height";
  return travel_mm > 0 ? `+${travel_mm.toFixed(1)} bump` : `${travel_mm.toFixed(1)} droop`;
}
