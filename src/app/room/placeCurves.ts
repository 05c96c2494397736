import type { CurvePoint } from "../../check/result.ts";
import type { Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { resolveScene } from "../../scene/resolve.ts";
import { MovedPoints } from "../../studies/places/move.ts";
import { liveCurve } from "../store/corners.ts";
import type { RoomRun } from "./roomStore.ts";

interface Mover {
  readonly moved: MovedPoints;
  /** Of the document only what hangs on the points: little to read anew. */
  readonly reduced: SceneDocument;
}

const movers = new WeakMap<RoomRun, Mover>();

/** The wheel's readings over the travel with the run's points so far from where they are; null where the corner does not go together. */
export function curveAt(run: RoomRun, offset: Vec3): readonly CurvePoint[] | null {
  let mover = movers.get(run);
  if (!mover) {
    const { document, points, fit } = run.question;
    const moved = new MovedPoints(document, points, fit);
    mover = { moved, reduced: moved.reduced() };
    movers.set(run, mover);
  }
  const { moved, reduced } = mover;
  try {
    const scene = resolveScene(
      moved.at(
        run.question.points.map(() => offset),
        reduced,
      ),
    );
    return liveCurve(scene, scene.sides[0]!);
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

export const READINGS = ["toe_deg", "camber_deg", "halfTrack_mm", "shaft_mm", "damperRatio"] as const;
export type ReadingName = (typeof READINGS)[number];

/** One reading as it runs; empty where the scene has none. */
export function readingsOf(
  curve: readonly CurvePoint[],
  name: ReadingName,
): { readonly travel_mm: number; readonly value: number }[] {
  return curve.flatMap((point) => {
    const value = point[name];
    return value === null ? [] : [{ travel_mm: point.travel_mm, value }];
  });
}
