import type { CheckResult } from "../../check/result.ts";
import type { Solid } from "../../geometry/solid.ts";
import { readCorner } from "../../kinematics/readings.ts";
import { length } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { measuredPoint, rightAsMeasured } from "../../scene/measured.ts";
import { listPoints, withBoltedUp } from "../../scene/points.ts";
import { resolveScene } from "../../scene/resolve.ts";
import type { Side } from "../../scene/scene.ts";
import { fullCheck } from "../fullCheck.ts";
import { correctMount, type MountCorrection } from "../jig/inverse.ts";
import { cornerAtRide, mountsOf } from "../jig/sensitivity.ts";

/** One side as it was welded. */
export interface BuiltSide {
  /** Mounts that were measured on this side; the others are taken to be where they are drawn. */
  readonly measured: readonly string[];
  readonly toe_deg: number;
  readonly camber_deg: number;
  /** Less what was meant. */
  readonly toeError_deg: number;
  readonly camberError_deg: number;
  /** Of one mount each, the smallest move that brings toe back, and the same for toe and camber together; the smallest first. */
  readonly toeBack: readonly MountCorrection[];
  readonly bothBack: readonly MountCorrection[];
  readonly check: CheckResult;
}

export interface AsBuilt {
  readonly meant: { readonly toe_deg: number; readonly camber_deg: number };
  readonly sides: Readonly<Partial<Record<Side, BuiltSide>>>;
  /** Half of left toe less right toe: where the axle steers the car, + to the right. Null with one side. */
  readonly thrust_deg: number | null;
}

/**
 * What the mounts as they were measured on the car do: actual angles at ride height with every part as long as it is drawn, the thrust angle, every
 * clearance of either side, and the smallest corrections. Throws InputError, where parts do not reach too.
 */
export function judgeAsBuilt(
  document: SceneDocument,
  meshFiles: ReadonlyMap<string, Solid>,
  sceneName: string,
  isCancelled: () => boolean = () => false,
): AsBuilt {
  const { sides, wheel } = resolveScene(document);
  const { toe_deg, camber_deg } = wheel;
  const built: Partial<Record<Side, BuiltSide>> = {};
  for (const side of sides) {
    const own: SceneDocument = {
      ...(side === "left" ? leftAsMeasured(document) : rightAsMeasured(document)),
      sides: side,
    };
    const scene = resolveScene(own);
    const { corner, pose } = cornerAtRide(scene);
    const now = readCorner(corner, pose, "rest");
    const corrections = (wanted: Parameters<typeof correctMount>[2]) =>
      mountsOf(own, scene)
        .flatMap(({ point }) => correctMount(own, point, wanted) ?? [])
        .sort((a, b) => length(a.by) - length(b.by));
    built[side] = {
      measured: listPoints(document).flatMap(({ name, isMount }) =>
        isMount && measuredPoint(document, side, name) ? [name] : [],
      ),
      toe_deg: now.toe_deg,
      camber_deg: now.camber_deg,
      toeError_deg: now.toe_deg - toe_deg,
      camberError_deg: now.camber_deg - camber_deg,
      toeBack: corrections({ toe_deg }),
      bothBack: corrections({ toe_deg, camber_deg }),
      check: fullCheck(own, meshFiles, sceneName, isCancelled),
    };
  }
  const { left, right } = built;
  return {
    meant: { toe_deg, camber_deg },
    sides: built,
    thrust_deg: left && right ? (left.toe_deg - right.toe_deg) / 2 : null,
  };
}

function leftAsMeasured(document: SceneDocument): SceneDocument {
  return listPoints(document).reduce((changed, { name, isMount }) => {
    const left = isMount ? measuredPoint(document, "left", name) : null;
    return left === null ? changed : withBoltedUp(changed, name, left.at);
  }, document);
}
