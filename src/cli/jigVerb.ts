import type { Vec3 } from "../maths/vec3.ts";
import { InputError } from "../scene/error.ts";
import { correctMount, type WantedAngles } from "../studies/jig/inverse.ts";
import { type JigMount, type JigRequest, type JigResult, planJig, type Spread } from "../studies/jig/jig.ts";
import { DIRECTIONS } from "../studies/jig/sensitivity.ts";
import { type LoadedScene, loadScene } from "./loadScene.ts";
import { namedOf, numberOf } from "./numbers.ts";
import { signed, tellOffset } from "./roomVerb.ts";
import type { OptionName, VerbOptions, VerbOutcome } from "./verb.ts";

export const JIG_OPTIONS: readonly OptionName[] = [
  "toe-within",
  "camber-within",
  "accuracy",
  "tolerance",
  "samples",
  "seed",
  "mount",
  "toe",
  "camber",
];

/** `jig`: how exactly mounts must be placed; with --mount where one must go. */
export async function runJig(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const loaded = await loadScene(path);
  try {
    return options.mount === undefined ? planOutcome(loaded, options) : correctOutcome(loaded, options.mount, options);
  } catch (error) {
    throw error instanceof InputError ? error.in(path) : error;
  }
}

function planOutcome({ document, meshFiles, name }: LoadedScene, options: VerbOptions): VerbOutcome {
  const request: JigRequest = {
    document,
    meshFiles,
    toeWithin_deg: numberOf("toe-within", options["toe-within"], 0.1, 0.001),
    camberWithin_deg: numberOf("camber-within", options["camber-within"], 0.25, 0.001),
    accuracy_mm: numberOf("accuracy", options.accuracy, 1, 0),
    tolerance_mm: Object.fromEntries(
      (options.tolerance ?? []).map((text) => {
        const [point, value] = namedOf("tolerance", text);
        return [point, numberOf("tolerance", value, 0, 0)];
      }),
    ),
    samples: Math.round(numberOf("samples", options.samples, 500, 0)),
    seed: Math.round(numberOf("seed", options.seed, 1, 0)),
    withClearances: true,
  };
  const result = planJig(request);
  return {
    output: options.json
      ? `${JSON.stringify({ study: "jig", scene: name, ...result })}\n`
      : tellJig(name, request, result),
    status: result.mounts.some(({ wantsAdjuster }) => wantsAdjuster) ? 1 : 0,
  };
}

function correctOutcome({ document }: LoadedScene, point: string, options: VerbOptions): VerbOutcome {
  const wanted: WantedAngles = {
    ...(options.toe === undefined ? {} : { toe_deg: numberOf("toe", options.toe, 0) }),
    ...(options.camber === undefined ? {} : { camber_deg: numberOf("camber", options.camber, 0) }),
  };
  const found = correctMount(document, point, wanted);
  const status = found ? 0 : 1;
  if (options.json) return { output: `${JSON.stringify({ study: "jig", mount: point, wanted, found })}\n`, status };
  if (!found) return { output: `${point} alone cannot set it, whatever its place\n`, status };
  const by = found.by.map((value) => Math.round(value * 100) / 100) as unknown as Vec3;
  return {
    output: `${point} must go ${tellOffset(by)}; toe is then ${signed(found.toe_deg, 2)}°, camber ${signed(found.camber_deg, 2)}°\n`,
    status,
  };
}

function tellJig(name: string, request: JigRequest, { mounts, angles, shareWithin, clearances }: JigResult): string {
  const lines = [
    `${name}: mounts in the order of the care they deserve, for toe within ${request.toeWithin_deg}° and camber within ${request.camberWithin_deg}°`,
    ...mounts.map(tellMount),
    `all together  toe ${tellSpread(angles.toe_deg, 2, "°")}; camber ${tellSpread(angles.camber_deg, 2, "°")}; half track ${tellSpread(angles.halfTrack_mm, 1, " mm")}; wheelbase ${tellSpread(angles.wheelbaseShift_mm, 1, " mm")}`,
    `of ${request.samples} corners drawn at random (seed ${request.seed}) ${Math.round(100 * shareWithin)} % are right`,
    ...clearances
      .filter(({ measureAgain }) => measureAgain)
      .map(
        ({ side, a, b, clearance_mm, worst_mm, required_mm }) =>
          `measure again ${side} ${a} / ${b}: ${clearance_mm.toFixed(0)} ± ${worst_mm.toFixed(0)} mm, ${required_mm} wanted`,
      ),
    "Clearances at some travels only. Geometry only, rigid parts: prove it by hand with the spring out, on stands.",
  ];
  return `${lines.join("\n")}\n`;
}

function tellMount({ point, perMm, within_mm, tolerance_mm, wantsAdjuster }: JigMount): string {
  const each = DIRECTIONS.map((direction) => {
    const { toe_deg, camber_deg } = perMm[direction];
    const most = within_mm[direction];
    return `${direction} ${most === null ? "hardly matters" : `±${most.toFixed(1)} mm`} (toe ${signed(toe_deg, 3)}°, camber ${signed(camber_deg, 3)}° a mm)`;
  });
  const advice = wantsAdjuster ? "; tighter than you place it: slots, shims or an adjuster" : "";
  return `${point}: ${each.join(", ")}; placed within ${tolerance_mm} mm${advice}`;
}

function tellSpread({ worst, sampled }: Spread, digits: number, unit: string): string {
  return `±${worst.toFixed(digits)}${unit} at worst, ${signed(sampled[1], digits)} to ${signed(sampled[3], digits)}${unit} for nine in ten`;
}
