import { normalise, scale, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { resolveScene } from "../../scene/resolve.ts";
import type { Scene } from "../../scene/scene.ts";
import { cornerAtRide, DIRECTIONS, mountRates, mountsOf } from "../jig/sensitivity.ts";
import { type Means, withMountMoved } from "./means.ts";
import { type Aim, anglesOf, type Recovery, recoverAngles } from "./recover.ts";

export interface PullRequest {
  readonly document: SceneDocument;
  /** By point: how far welding may pull the mount, whichever way, mm. Others stay. */
  readonly pull_mm: Readonly<Record<string, number>>;
  readonly means: readonly Means[];
  readonly toeWithin_deg: number;
  readonly camberWithin_deg: number;
}

/** All mounts pulled the way that is worst for one angle. */
export interface PullCase {
  readonly worst: "toe-in" | "toe-out" | "top-out" | "top-in";
  readonly pulled: readonly { readonly point: string; readonly by: Vec3 }[];
  /** Null where the parts would not go together. */
  readonly toe_deg: number | null;
  readonly camber_deg: number | null;
  /** What the means get of it. */
  readonly recovery: Recovery | null;
}

export interface WeldPull {
  readonly meant: { readonly toe_deg: number; readonly camber_deg: number };
  readonly cases: readonly PullCase[];
  /** The means bring every case back. */
  readonly isRecovered: boolean;
}

/**
 * A rehearsal: every mount pulled by as much as is stated, the way that by the exact derivatives at ride height is worst for one angle,
 * with every part as long as it is; what that does, and what the means get of it back. Throws InputError.
 */
export function rehearseWeldPull(request: PullRequest): WeldPull {
  const { document, pull_mm, means, toeWithin_deg, camberWithin_deg } = request;
  const scene = bareScene(document);
  const mounts = mountsOf(document, scene);
  for (const [point, value] of Object.entries(pull_mm)) {
    if (!mounts.some((mount) => mount.point === point)) {
      const known = mounts.map((mount) => mount.point).join(", ");
      throw new InputError("missing-point", { path: "pull_mm" }, `no member is held at "${point}"`, known);
    }
    if (!(value >= 0 && value <= 50))
      throw new InputError("wrong-value", { path: `pull_mm.${point}` }, `is ${value}`, "0 to 50 mm");
  }
  const { corner, pose } = cornerAtRide(scene);
  const { toe_deg, camber_deg } = scene.wheel;
  const aim: Aim = { toe_deg, camber_deg, toeWithin_deg, camberWithin_deg };
  const pulls = mounts.filter(({ point }) => (pull_mm[point] ?? 0) > 0);
  const cases = CASES.map(({ worst, key, sign }): PullCase => {
    const pulled = pulls.map((mount) => {
      const rates = mountRates(corner, mount, pose);
      const slope = DIRECTIONS.map((direction) => sign * (rates?.[direction][key] ?? 0)) as unknown as Vec3;
      const isFelt = Math.hypot(...slope) > 1e-9;
      return { mount, by: isFelt ? scale(normalise(slope), pull_mm[mount.point]!) : ([0, 0, 0] as const) };
    });
    const welded = pulled.reduce((set, { mount, by }) => withMountMoved(set, mount, by), scene);
    const angles = anglesOf(welded);
    return {
      worst,
      pulled: pulled.map(({ mount, by }) => ({ point: mount.point, by })),
      toe_deg: angles?.toe_deg ?? null,
      camber_deg: angles?.camber_deg ?? null,
      recovery: angles ? recoverAngles(welded, mounts, means, aim) : null,
    };
  });
  return {
    meant: { toe_deg, camber_deg },
    cases,
    isRecovered: cases.every(({ recovery }) => recovery?.isEnough === true),
  };
}

const CASES = [
  { worst: "toe-in", key: "toe_deg", sign: 1 },
  { worst: "toe-out", key: "toe_deg", sign: -1 },
  { worst: "top-out", key: "camber_deg", sign: 1 },
  { worst: "top-in", key: "camber_deg", sign: -1 },
] as const;

/** What the angles hang on. */
export function bareScene(document: SceneDocument): Scene {
  return { ...resolveScene(document), bodies: [] };
}
