import { curvesOf } from "../check/curves.ts";
import type { CurvePoint } from "../check/result.ts";
import { runSide } from "../check/tracks.ts";
import { InputError } from "../scene/error.ts";
import { resolveScene } from "../scene/resolve.ts";
import { loadScene } from "./loadScene.ts";
import { withTravel } from "./narrow.ts";
import type { VerbOptions, VerbOutcome } from "./verb.ts";

const COLUMNS = [
  "travel_mm",
  "toe_deg",
  "camber_deg",
  "halfTrack_mm",
  "wheelbaseShift_mm",
  "rollCentre_mm",
  "damper_mm",
  "damperRatio",
  "shaft_mm",
  "innerAngle_deg",
  "outerAngle_deg",
] as const satisfies readonly (keyof CurvePoint)[];

/** `curves`: one row a travel and side, comma-separated; empty where the scene has no such part. */
export async function runCurves(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const { document } = await loadScene(path);
  const poseId = options.pose ?? "rest";
  try {
    const scene = resolveScene(withTravel(document, options.travel), path);
    const rows = scene.sides.flatMap((side) =>
      curvesOf(runSide(scene, side), scene.travel, poseId).curve.map((point) =>
        [side, ...COLUMNS.map((column) => point[column] ?? "")].join(","),
      ),
    );
    return { output: `${["side", ...COLUMNS].join(",")}\n${rows.join("\n")}\n`, status: 0 };
  } catch (error) {
    throw error instanceof InputError ? error.in(path) : error;
  }
}
