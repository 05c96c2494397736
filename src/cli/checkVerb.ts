import { isClashing } from "../check/check.ts";
import type { CheckResult, PairVerdict } from "../check/result.ts";
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
    const prepared = machine.prepare(withTravel(document, options.travel), meshFiles, options.pose);
    const result = await machine.check(prepared, name, PATIENT);
    return {
      output: options.json ? `${JSON.stringify(contractOf(result))}\n` : tell(result),
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
    pairs: result.pairs.map(({ profile: _profile, keys: _keys, byPose: _byPose, ...pair }) => pair),
  };
}

function tell({ scene, pairs, limits, summary }: CheckResult): string {
  const lines = [
    `${scene}: ${summary.clash} clash, ${summary.tight} tight, ${summary.clear} clear, ${summary.accepted} accepted`,
    ...pairs.filter(({ verdict }) => verdict === "clash" || verdict === "tight").map(tellPair),
    ...limits.map(
      ({ side, what, verdict, value, limit, at }) =>
        `${verdict === "clash" ? "PAST" : "ok  "}  ${side} ${what}: ${value.toFixed(2)} against ${limit.toFixed(2)} at ${signed(at.travel_mm)}, ${at.pose}`,
    ),
    "Geometry only, rigid parts: prove it by hand with the spring out, on stands.",
  ];
  return `${lines.join("\n")}\n`;
}

function tellPair({ side, a, b, clearance_mm, verdict, at, required_mm }: PairVerdict): string {
  const gap = clearance_mm < 0 ? `${(-clearance_mm).toFixed(1)} mm too deep` : `${clearance_mm.toFixed(1)} mm off`;
  return `${verdict}  ${side} ${a} / ${b}: ${gap} at ${signed(at.travel_mm)}, ${at.pose} (wants ${required_mm})`;
}

function signed(travel_mm: number): string {
  return `${travel_mm > 0 ? "+" : ""}${travel_mm.toFixed(1)}`;
}
