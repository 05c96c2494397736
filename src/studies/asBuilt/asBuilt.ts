import type { CheckResult } from "../../check/result.ts";
import type { Solid } from "../../geometry/solid.ts";
import { readCorner } from "../../kinematics/readings.ts";
import { length } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { measuredPoint, rightAsMeasured } from "../../scene/measured.ts";
import { listPoints, withBoltedUp } from "../../scene/points.ts";
import { resolveScene } from "../../scene/resolve.ts";
import type { Side } from "../../scene/scene.ts";
import { sceneCheck } from "../fullCheck.ts";
import { correctMount, type MountCorrection } from "../jig/inverse.ts";
import { cornerAtRide, mountsOf } from "../jig/sensitivity.ts";
import { type MovePrice, priceOf } from "../price.ts";
import { type Means, withSettings } from "./means.ts";
import { type Recovery, recoverAngles } from "./recover.ts";

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
  /** What stated means get back, and what that does to the rest; null where none are stated. */
  readonly recovery: (Recovery & { readonly price: MovePrice }) | null;
}

/** What can be set on the car, each side alike, and how near the angles shall come. */
export interface StatedMeans {
  readonly means: readonly Means[];
  readonly toeWithin_deg: number;
  readonly camberWithin_deg: number;
}

export interface AsBuilt {
  readonly meant: { readonly toe_deg: number; readonly camber_deg: number };
  readonly sides: Readonly<Partial<Record<Side, BuiltSide>>>;
  /** Half of left toe less right toe: where the axle steers the car, + to the right. Null with one side. */
  readonly thrust_deg: number | null;
  /** The same with the means set as told; null with one side, or without means. */
  readonly thrustAfter_deg: number | null;
}

/**
 * What the mounts as they were measured on the car do: actual angles at ride height with every part as long as it is drawn, the thrust angle, every
 * clearance of either side, and the smallest corrections: of one mount each to any place, and of means that are stated, several at once. Throws InputError, where parts do not reach too.
 */
export function judgeAsBuilt(
  document: SceneDocument,
  meshFiles: ReadonlyMap<string, Solid>,
  sceneName: string,
  isCancelled: () => boolean = () => false,
  stated: StatedMeans | null = null,
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
    const check = sceneCheck(scene, meshFiles, sceneName, isCancelled);
    const recover = (): BuiltSide["recovery"] => {
      if (!stated) return null;
      const mounts = mountsOf(own, scene);
      const found = recoverAngles(scene, mounts, stated.means, { toe_deg, camber_deg, ...stated });
      const after =
        found.settings.length > 0
          ? sceneCheck(withSettings(scene, mounts, found.settings), meshFiles, sceneName, isCancelled)
          : check;
      return { ...found, price: priceOf(check, after) };
    };
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
      check,
      recovery: recover(),
    };
  }
  const { left, right } = built;
  return {
    meant: { toe_deg, camber_deg },
    sides: built,
    thrust_deg: left && right ? (left.toe_deg - right.toe_deg) / 2 : null,
    thrustAfter_deg: left?.recovery && right?.recovery ? (left.recovery.toe_deg - right.recovery.toe_deg) / 2 : null,
  };
}

function leftAsMeasured(document: SceneDocument): SceneDocument {
  return listPoints(document).reduce((changed, { name, isMount }) => {
    const left = isMount ? measuredPoint(document, "left", name) : null;
    return left === null ? changed : withBoltedUp(changed, name, left.at);
  }, document);
}
