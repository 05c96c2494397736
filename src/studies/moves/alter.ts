import { compileCorner } from "../../kinematics/corner.ts";
import { readCorner } from "../../kinematics/readings.ts";
import { composePoses, rotationPose, turnPose } from "../../maths/pose.ts";
import { add, type Vec3 } from "../../maths/vec3.ts";
import type { MadeDocument, SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { shapeOfMade } from "../../scene/parts/follow.ts";
import { turnOf } from "../../scene/parts/mount.ts";
import { withMember } from "../../scene/parts/parts.ts";
import { placePowertrain } from "../../scene/parts/powertrain.ts";
import { resolveScene } from "../../scene/resolve.ts";
import type { Fit } from "../places/move.ts";

/** The powertrain turned about the car's axes forward, left and up. */
export const TURNS = ["roll", "tilt", "swing"] as const;
export type Turn = (typeof TURNS)[number];

/** A part made otherwise, or the powertrain elsewhere: what may clear a pair beside a hard point that moves. */
export type Alteration =
  | { readonly kind: "thinner"; readonly member: string; readonly diameter_mm: number; readonly was_mm: number }
  | {
      readonly kind: "bent";
      readonly member: string;
      readonly bow_mm: number;
      /** Unit vector, car coordinates of the left side. */
      readonly toward: Vec3;
      readonly made: MadeDocument;
    }
  | { readonly kind: "shifted"; readonly by: Vec3; readonly fit: Fit }
  | { readonly kind: "turned"; readonly turn: Turn; readonly by_deg: number; readonly about: Vec3; readonly fit: Fit };

/**
 * The document altered so. With the powertrain `bolted` the driveshaft is as it is and its plunge takes the way; `cut`: its bar is cut to
 * suit, so that at ride height each inner joint stands in its stroke where it does now. Throws InputError for what cannot be made.
 */
export function altered(document: SceneDocument, alteration: Alteration): SceneDocument {
  switch (alteration.kind) {
    case "thinner": {
      const member = memberOf(document, alteration.member);
      if (member.kind !== "link" && member.kind !== "wishbone") throw notRound(alteration.member);
      return withMember(document, member.id, { ...member, diameter_mm: alteration.diameter_mm });
    }
    case "bent": {
      const member = memberOf(document, alteration.member);
      if (member.kind !== "link") throw notRound(alteration.member);
      const { made } = alteration;
      const body = shapeOfMade(document, made);
      // what is bent must not spin: its eyes' bolts hold it
      const bushAxis = member.bushAxis ?? (made.eyeAxis as unknown as Vec3);
      return withMember(document, member.id, { ...member, bushAxis, body, made });
    }
    case "shifted": {
      const place = document.powertrain?.place ?? AS_DRAWN;
      const moved = placePowertrain(document, { ...place, shift_mm: add(place.shift_mm, alteration.by) });
      return alteration.fit === "cut" ? withShaftCut(document, moved) : moved;
    }
    case "turned": {
      const { turn, by_deg, about } = alteration;
      const place = document.powertrain?.place ?? { ...AS_DRAWN, about };
      const axis = AXIS_OF[turn];
      const step = rotationPose(axis, (by_deg * Math.PI) / 180);
      const turn_deg = turnOf(composePoses(step, turnPose(place.turn_deg)));
      // turned about where the place's own point has come to be, the shift stays as it is
      const moved = placePowertrain(document, { ...place, turn_deg });
      return alteration.fit === "cut" ? withShaftCut(document, moved) : moved;
    }
  }
}

const AS_DRAWN = { shift_mm: [0, 0, 0], turn_deg: [0, 0, 0], about: [0, 0, 0] } as const;
const AXIS_OF: Readonly<Record<Turn, Vec3>> = { roll: [1, 0, 0], tilt: [0, 1, 0], swing: [0, 0, 1] };

function memberOf(document: SceneDocument, id: string): SceneDocument["members"][number] {
  const found = document.members.find((member) => member.id === id);
  if (found) return found;
  throw new InputError("missing-id", { path: "members" }, `there is no member "${id}"`, "the id of a member");
}

function notRound(id: string): InputError {
  return new InputError("wrong-value", { path: "members" }, `"${id}" is not drawn as a bar`, "a link");
}

/** Stroke and bar of the driveshaft longer or shorter by what the ride length has changed, each side by its own. */
function withShaftCut(before: SceneDocument, after: SceneDocument): SceneDocument {
  const { driveshaft } = after;
  if (!driveshaft) return after;
  const [was, is] = [before, after].map(shaftLengths) as [ShaftLengths, ShaftLengths];
  const { right, ...left } = driveshaft;
  const cut = <T extends Stroke>(stroke: T, by_mm: number): T => ({
    ...stroke,
    ...Object.fromEntries(STROKE.flatMap((key) => (stroke[key] === undefined ? [] : [[key, stroke[key] + by_mm]]))),
  });
  const byLeft = is.left === undefined ? 0 : is.left - was.left!;
  const own: Stroke = Object.fromEntries(STROKE.flatMap((key) => (left[key] === undefined ? [] : [[key, left[key]]])));
  const byRight = is.right === undefined ? null : is.right - was.right!;
  const cutRight = byRight === null ? right : { ...right, ...cut({ ...own, ...strokeOf(right) }, byRight) };
  return { ...after, driveshaft: { ...cut(left, byLeft), ...(cutRight ? { right: cutRight } : {}) } };
}

const STROKE = ["shortest_mm", "longest_mm", "bar_mm"] as const;
type Stroke = { readonly [K in (typeof STROKE)[number]]?: number | undefined };
type ShaftLengths = { readonly left?: number; readonly right?: number };

function strokeOf(right: Stroke | undefined): Stroke {
  return Object.fromEntries(STROKE.flatMap((key) => (right?.[key] === undefined ? [] : [[key, right[key]]])));
}

function shaftLengths(document: SceneDocument): ShaftLengths {
  const scene = resolveScene(document);
  return Object.fromEntries(
    scene.sides.map((side) => {
      const corner = compileCorner(scene, side);
      return [side, readCorner(corner, corner.ridePose, "rest").shaft_mm!];
    }),
  );
}
