import { isClashing } from "../check/check.ts";
import type { CheckResult, PairVerdict } from "../check/result.ts";
import type { SceneDocument } from "../scene/document.ts";
import { InputError } from "../scene/error.ts";
import { Machine, type Watch } from "../work/machine.ts";
import { loadWhatCanBe } from "./loadScene.ts";
import { withTravel } from "./narrow.ts";
import { tellEngine, tellLimit, tellTravel } from "./tellState.ts";
import type { VerbOptions, VerbOutcome } from "./verb.ts";

const PATIENT: Watch = { onProgress() {}, isStopped: () => false, breathe: () => Promise.resolve() };

/** `check`: what touches, as sentences or as the JSON of the command-line contract. */
export async function runCheck(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const { name, document, meshFiles } = await loadWhatCanBe(path);
  const machine = new Machine();
  try {
    const prepared = machine.prepare(withTravel(document, options.travel), meshFiles, { onlyPose: options.pose });
    const result = await machine.check(prepared, name, PATIENT);
    return {
      output: options.json ? `${JSON.stringify(contractOf(result))}\n` : tellCheck(result, tellAllowances(document)),
      // what is not checked may clash
      status: isClashing(result) ? 1 : result.unchecked ? 2 : 0,
    };
  } catch (error) {
    throw error instanceof InputError ? error.in(path) : error;
  }
}

/** The result as the contract has it: what only the app's plots need stays out. */
function contractOf(result: CheckResult) {
  return {
    ...result,
    pairs: result.pairs.map(({ profile: _profile, keys: _keys, byPose: _byPose, farther: _farther, ...pair }) => pair),
  };
}

/** What the verdicts allow for, as lines. */
function tellAllowances({ allowances = {} }: SceneDocument): string[] {
  const { tyreGrowth_mm = 0, tyreBulge_mm = 0, give = [] } = allowances;
  const parts = [
    ...(tyreGrowth_mm > 0 ? [`the tread ${tyreGrowth_mm} mm farther out at speed`] : []),
    ...(tyreBulge_mm > 0 ? [`each sidewall ${tyreBulge_mm} mm farther out under load`] : []),
    ...give.map(({ on, mm }) => `${on} pushed off by up to ${mm} mm`),
  ];
  return parts.length > 0 ? [`allowed for: ${parts.join("; ")}`] : [];
}

export function tellCheck(
  { scene, pairs, limits, summary, unchecked = [] }: CheckResult,
  allowed: readonly string[] = [],
): string {
  const lines = [
    `${scene}: ${summary.clash} clash, ${summary.tight} tight, ${summary.clear} clear, ${summary.accepted} accepted (each side's pairs counted)`,
    ...unchecked.map(
      ({ id, file, wrong, wanted }) => `NOT CHECKED, left out: ${id}: ${file}: ${wrong}; wanted: ${wanted}`,
    ),
    ...pairs.filter(({ verdict }) => verdict === "clash" || verdict === "tight").map(tellPair),
    ...limits.map(tellLimit),
    ...allowed,
    "Geometry only, rigid parts: prove it by hand with the spring out, on stands.",
  ];
  return `${lines.join("\n")}\n`;
}

function tellPair({
  side,
  a,
  b,
  clearance_mm,
  verdict,
  at,
  required_mm,
  within_mm,
  give_mm,
  open,
}: PairVerdict): string {
  const gap = clearance_mm < 0 ? `overlap ${(-clearance_mm).toFixed(1)} mm` : `gap ${clearance_mm.toFixed(1)} mm`;
  // chassis and powertrain do not follow the wheel
  const where = side === "both" ? "whatever the travel" : `at ${tellTravel(at.travel_mm)}`;
  return `${verdict.padEnd(6)} ${side} ${a} / ${b}: ${gap} ${where}, engine ${tellEngine(at)} (wants a gap of ${required_mm} mm)${within_mm === undefined ? "" : `, told ${within_mm} mm nearer than checked`}${give_mm === undefined ? "" : `, with ${give_mm} mm of give`}${open === undefined ? "" : `, ${open.join(" and ")} open: surface only`}`;
}
