import { isClashing } from "../check/check.ts";
import { scale } from "../maths/vec3.ts";
import { InputError } from "../scene/error.ts";
import type { Side } from "../scene/scene.ts";
import { type BuiltSide, judgeAsBuilt } from "../studies/asBuilt/asBuilt.ts";
import { ALONG, type Means, type Setting } from "../studies/asBuilt/means.ts";
import type { Recovery } from "../studies/asBuilt/recover.ts";
import { rehearseWeldPull, type WeldPull } from "../studies/asBuilt/weldPull.ts";
import { DIRECTIONS } from "../studies/jig/sensitivity.ts";
import { loadScene } from "./loadScene.ts";
import { namedOf, numberOf, rangeOf } from "./numbers.ts";
import { signed, tellOffset, tellPrice } from "./roomVerb.ts";
import type { OptionName, VerbOptions, VerbOutcome } from "./verb.ts";

export const AS_BUILT_OPTIONS: readonly OptionName[] = [
  "slot",
  "shim",
  "adjuster",
  "pull",
  "toe-within",
  "camber-within",
];

/** `asbuilt`: what the mounts as measured on the car do, and what brings them back. */
export async function runAsBuilt(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const { document, meshFiles, name } = await loadScene(path);
  try {
    const means = meansOf(options);
    const within = {
      toeWithin_deg: numberOf("toe-within", options["toe-within"], 0.02, 0.001),
      camberWithin_deg: numberOf("camber-within", options["camber-within"], 0.1, 0.001),
    };
    if (options.pull !== undefined) {
      const pull_mm = Object.fromEntries(
        options.pull.map((text) => {
          const [point, value] = namedOf("pull", text);
          return [point, numberOf("pull", value, 0, 0)];
        }),
      );
      return pullOutcome(name, rehearseWeldPull({ document, pull_mm, means, ...within }), options);
    }
    const stated = means.length > 0 ? { means, ...within } : null;
    const result = judgeAsBuilt(document, meshFiles, name, undefined, stated);
    const sides = Object.entries(result.sides) as [Side, BuiltSide][];
    const isOpen = ({ check, recovery }: BuiltSide) => isClashing(check) || recovery?.isEnough === false;
    const status = sides.some(([, built]) => isOpen(built)) ? 1 : 0;
    if (options.json) {
      const { meant, thrust_deg, thrustAfter_deg } = result;
      const told = sides.map(([side, { check, ...rest }]) => [
        side,
        { ...rest, pairs: check.pairs.map(bare), limits: check.limits },
      ]);
      const document = {
        study: "asbuilt",
        scene: name,
        meant,
        thrust_deg,
        thrustAfter_deg,
        sides: Object.fromEntries(told),
      };
      return { output: `${JSON.stringify(document)}\n`, status };
    }
    const lines = sides.flatMap(([side, built]) => tellSide(side, built));
    if (result.thrust_deg !== null) lines.push(`thrust angle ${signed(result.thrust_deg, 2)}° (+ steers to the right)`);
    if (result.thrustAfter_deg !== null) lines.push(`set so: ${signed(result.thrustAfter_deg, 2)}°`);
    lines.push("Geometry only, rigid parts: prove it by hand with the spring out, on stands.");
    return { output: `${name}: as built\n${lines.join("\n")}\n`, status };
  } catch (error) {
    throw error instanceof InputError ? error.in(path) : error;
  }
}

function bare({ side, a, b, required_mm, clearance_mm, verdict, at }: BuiltSide["check"]["pairs"][number]) {
  return { side, a, b, required_mm, clearance_mm, verdict, at };
}

function tellSide(
  side: Side,
  { measured, toe_deg, camber_deg, toeError_deg, camberError_deg, toeBack, check, recovery }: BuiltSide,
): string[] {
  const [best] = toeBack;
  const open = check.pairs.filter(({ verdict }) => verdict === "clash" || verdict === "tight");
  return [
    `${side}: toe ${signed(toe_deg, 2)}° (${signed(toeError_deg, 2)} off), camber ${signed(camber_deg, 2)}° (${signed(camberError_deg, 2)} off); measured: ${measured.join(", ") || "nothing"}`,
    ...(best && Math.abs(toeError_deg) >= 0.005 ? [`  ${best.point} ${tellOffset(best.by)} brings toe back`] : []),
    ...(recovery ? [`  ${tellRecovery(recovery)}; ${tellPrice(recovery.price)}`] : []),
    ...open.map(
      ({ a, b, clearance_mm, required_mm }) => `  ${a} / ${b}: ${clearance_mm.toFixed(1)} mm, ${required_mm} wanted`,
    ),
  ];
}

/** NAME=WAY:FROM:TO:STEP of slots and shims, ID=FROM:TO:STEP of adjusters. Throws InputError. */
function meansOf({ slot = [], shim = [], adjuster = [] }: VerbOptions): Means[] {
  const refuse = (option: string, text: string, wanted: string) =>
    new InputError("wrong-value", { path: `--${option}` }, `"${text}" does not fit`, wanted);
  const mounted = (kind: "slot" | "shim") => (text: string) => {
    const [point, value] = namedOf(kind, text);
    const [way, ...range] = value.split(":");
    const along = DIRECTIONS.find((direction) => direction === way);
    if (!along || range.length !== 3) throw refuse(kind, text, "NAME=WAY:FROM:TO:STEP, WAY forward, out or up");
    return { kind, point, along, ...reachOf(kind, text, range) };
  };
  const turned = (text: string) => {
    const [member, value] = namedOf("adjuster", text);
    const range = value.split(":");
    if (range.length !== 3) throw refuse("adjuster", text, "ID=FROM:TO:STEP");
    return { kind: "adjuster" as const, member, ...reachOf("adjuster", text, range) };
  };
  return [...slot.map(mounted("slot")), ...shim.map(mounted("shim")), ...adjuster.map(turned)];
}

function reachOf(option: string, text: string, range: readonly string[]) {
  const [from_mm, to_mm] = rangeOf(option, range.slice(0, 2).join(":"));
  return { from_mm, to_mm, step_mm: numberOf(option, range[2] ?? text, 0, 0) };
}

function tellSetting({ means, by_mm }: Setting): string {
  if (means.kind === "adjuster") {
    return `${means.member} ${Math.abs(by_mm).toFixed(2)} mm ${by_mm > 0 ? "longer" : "shorter"}`;
  }
  return `${means.point} ${tellOffset(scale(ALONG[means.along], by_mm))}`;
}

function tellRecovery({ settings, toe_deg, camber_deg, isEnough }: Recovery): string {
  const what = settings.length > 0 ? settings.map(tellSetting).join(" and ") : "nothing to be set";
  const how = isEnough ? "" : ", which is as near as these get it";
  return `${what}: toe ${signed(toe_deg, 2)}°, camber ${signed(camber_deg, 2)}°${how}`;
}

const WORST_WORDS = {
  "toe-in": "most toe-in",
  "toe-out": "most toe-out",
  "top-out": "top most outward",
  "top-in": "top most inward",
} as const;

function pullOutcome(name: string, pull: WeldPull, options: VerbOptions): VerbOutcome {
  const status = pull.isRecovered ? 0 : 1;
  if (options.json) return { output: `${JSON.stringify({ study: "weldpull", scene: name, ...pull })}\n`, status };
  const lines = pull.cases.map(({ worst, pulled, toe_deg, camber_deg, recovery }) => {
    const where = pulled.map(({ point, by }) => `${point} ${tellOffset(by)}`).join(", ") || "nothing pulled";
    if (toe_deg === null || camber_deg === null)
      return `${WORST_WORDS[worst]} (${where}): the parts do not go together`;
    const back = recovery ? `; ${tellRecovery(recovery)}` : "";
    return `${WORST_WORDS[worst]} (${where}): toe ${signed(toe_deg, 2)}°, camber ${signed(camber_deg, 2)}°${back}`;
  });
  lines.push(pull.isRecovered ? "all of it can be set back" : "not all of it can be set back");
  lines.push("Geometry only, rigid parts: prove it by hand with the spring out, on stands.");
  return { output: `${name}: if welding pulls each mount as stated\n${lines.join("\n")}\n`, status };
}
