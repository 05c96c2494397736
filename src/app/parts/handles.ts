import type { ModelBody } from "../../check/model.ts";
import { bounds } from "../../geometry/measure.ts";
import { applyPose, type Pose, turnByPose } from "../../maths/pose.ts";
import { add, scale, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { type Part, partOf } from "../../scene/parts/parts.ts";
import { pointResolver } from "../../scene/pointResolver.ts";
import { recipeOf } from "../../scene/recipes/made.ts";
import { pointsOfMade, sizeHandles } from "../../scene/recipes/makeShape.ts";
import { t } from "../text/text.ts";
import { shownFields } from "./recipeText.ts";

/** What can be pulled in the view: a size, or the whole part one way. */
export interface Handle {
  readonly key: string;
  readonly kind: "size" | "move";
  readonly label: string;
  /** Where it stands and which way it goes now, car coordinates. */
  readonly at: Vec3;
  readonly along: Vec3;
  /** Moves: the way as drawn, whatever the part's pose. */
  readonly way: Vec3;
  readonly perPull: number;
}

/** Between the two marks of a handle, from which the view tells how far a pull goes. */
export const MARK_STEP_MM = 50;
/** How far from the part's place its moving handles stand. */
const MOVE_REACH_MM = 110;

const WAYS: readonly (readonly ["forward" | "left" | "up", Vec3])[] = [
  ["forward", [1, 0, 0]],
  ["left", [0, 1, 0]],
  ["up", [0, 0, 1]],
];

export function partInHand(document: SceneDocument, id: string): Part | null {
  try {
    return partOf(document, id);
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

/** The handles of a part from the shelf, and for any body those that move it; where the left one, or the only one, stands now. */
export function handlesOf(
  document: SceneDocument,
  part: Part,
  bodies: readonly ModelBody[],
  poses: ReadonlyMap<string, Pose>,
): readonly Handle[] {
  if (part.kind !== "body" && !part.made) return [];
  const body = bodies.find(({ id, side }) => id === part.id && side !== "right");
  const pose = body && poses.get(body.key);
  if (!body || !pose) return [];
  const { drawn } = pointResolver(document);
  const sizes: Handle[] = [];
  if (part.made) {
    const fields = shownFields(recipeOf(part.made));
    for (const { key, at, along, perPull } of sizeHandles(part.made, drawn)) {
      const label = fields[key]?.label ?? key;
      sizes.push({ key, kind: "size", label, ...posed(at, along), way: along, perPull });
    }
  }
  if (part.kind !== "body") return sizes;
  const [first] = part.made ? pointsOfMade(part.made) : [];
  const centre = first ? drawn(first.point, "made") : middle(body);
  const moves = WAYS.map(
    ([key, way]): Handle => ({
      key,
      kind: "move",
      label: t(`parts.handles.${key}`),
      ...posed(add(centre, scale(way, MOVE_REACH_MM)), way),
      way,
      perPull: 1,
    }),
  );
  return [...sizes, ...moves];

  function posed(at: Vec3, along: Vec3): { at: Vec3; along: Vec3 } {
    return { at: applyPose(pose!, at), along: turnByPose(pose!, along) };
  }
}

function middle({ solid }: ModelBody): Vec3 {
  const { min, max } = bounds(solid);
  return scale(add(min, max), 0.5);
}

/** Two marks for each handle: where it stands, and a step along its way. */
export function marksOf(handles: readonly Handle[]): Vec3[] {
  return handles.flatMap(({ at, along }) => [at, add(at, scale(along, MARK_STEP_MM))]);
}

interface Flat {
  readonly x: number;
  readonly y: number;
}

/** Whether the handle's way is seen long enough to be pulled along: a way that points at the eye is not. */
export function canPull(from: Flat, step: Flat): boolean {
  return Math.hypot(step.x - from.x, step.y - from.y) >= MARK_STEP_MM / 10;
}

/** mm along the handle's way that a pull across the picture means; 0 where it cannot be pulled. */
export function pullOf(from: Flat, step: Flat, pulled: Flat): number {
  const [ux, uy] = [step.x - from.x, step.y - from.y];
  if (!canPull(from, step)) return 0;
  return ((pulled.x * ux + pulled.y * uy) / (ux * ux + uy * uy)) * MARK_STEP_MM;
}
