import { isClashing } from "../check/check.ts";
import { InputError } from "../scene/error.ts";
import type { Side } from "../scene/scene.ts";
import { type BuiltSide, judgeAsBuilt } from "../studies/asBuilt/asBuilt.ts";
import { loadScene } from "./loadScene.ts";
import { signed, tellOffset } from "./roomVerb.ts";
import type { VerbOptions, VerbOutcome } from "./verb.ts";

/** `asbuilt`: what the mounts as measured on the car do, and what brings them back. */
export async function runAsBuilt(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const { document, meshFiles, name } = await loadScene(path);
  try {
    const result = judgeAsBuilt(document, meshFiles, name);
    const sides = Object.entries(result.sides) as [Side, BuiltSide][];
    const status = sides.some(([, { check }]) => isClashing(check)) ? 1 : 0;
    if (options.json) {
      const { meant, thrust_deg } = result;
      const told = sides.map(([side, { check, ...rest }]) => [
        side,
        { ...rest, pairs: check.pairs.map(bare), limits: check.limits },
      ]);
      const document = { study: "asbuilt", scene: name, meant, thrust_deg, sides: Object.fromEntries(told) };
      return { output: `${JSON.stringify(document)}\n`, status };
    }
    const lines = sides.flatMap(([side, built]) => tellSide(side, built));
    if (result.thrust_deg !== null) lines.push(`thrust angle ${signed(result.thrust_deg, 2)}° (+ steers to the right)`);
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
  { measured, toe_deg, camber_deg, toeError_deg, camberError_deg, toeBack, check }: BuiltSide,
): string[] {
  const [best] = toeBack;
  const open = check.pairs.filter(({ verdict }) => verdict === "clash" || verdict === "tight");
  return [
    `${side}: toe ${signed(toe_deg, 2)}° (${signed(toeError_deg, 2)} off), camber ${signed(camber_deg, 2)}° (${signed(camberError_deg, 2)} off); measured: ${measured.join(", ") || "nothing"}`,
    ...(best && Math.abs(toeError_deg) >= 0.005 ? [`  ${best.point} ${tellOffset(best.by)} brings toe back`] : []),
    ...open.map(
      ({ a, b, clearance_mm, required_mm }) => `  ${a} / ${b}: ${clearance_mm.toFixed(1)} mm, ${required_mm} wanted`,
    ),
  ];
}
