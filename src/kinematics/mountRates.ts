import { applyPose, type Pose, turnByPose } from "../maths/pose.ts";
import {
  add,
  cross,
  distance,
  dot,
  length,
  mix,
  normalise,
  scale,
  squareTo,
  subtract,
  type Vec3,
} from "../maths/vec3.ts";
import type { Member, Scene } from "../scene/scene.ts";
import { CONSTRAINTS_OF_KIND, circleOf, EQUATION_COUNT } from "./equations.ts";

/** Where a member is held to the chassis, by the scene file's name of that end. */
export type MountEnd = "at" | "inboard" | "front" | "rear" | "top";

/** The chassis-side ends of a member. */
export function mountEnds({ kind }: Member): readonly MountEnd[] {
  switch (kind) {
    case "ball":
      return ["at"];
    case "link":
      return ["inboard"];
    case "wishbone":
    case "hinge":
      return ["front", "rear"];
    case "strut":
      return ["top"];
  }
}

/**
 * Rates of the five residuals of CarrierEquations (mm per mm) at a carrier pose that satisfies them, while one chassis-side end of a
 * member moves along `direction` (mm per mm, left frame) and every part keeps its length: the exact partial derivatives, equation by
 * equation, in their order.
 */
export function mountResidualRates(
  { members }: Scene,
  memberIndex: number,
  end: MountEnd,
  direction: Vec3,
  carrierLeft: Pose,
): Float64Array {
  const out = new Float64Array(EQUATION_COUNT);
  const first = members.slice(0, memberIndex).reduce((sum, { kind }) => sum + CONSTRAINTS_OF_KIND[kind], 0);
  out.set(ratesOf(members[memberIndex]!, end, direction, carrierLeft), first);
  return out;
}

function ratesOf(member: Member, end: MountEnd, direction: Vec3, carrier: Pose): readonly number[] {
  switch (member.kind) {
    case "link": {
      // (|x − a|² − L²)/2L
      const line = subtract(applyPose(carrier, member.outboard), member.inboardMounted);
      return [-dot(line, direction) / distance(member.inboard, member.outboard)];
    }
    case "ball":
      return direction.map((value) => -value);
    case "wishbone": {
      // sphere about the circle's centre C, plane a·(x − C) square to the axis a
      const { along_mm, radius_mm } = circleOf(member.front, member.rear, member.outboard);
      const { axis, axisRate, middle, middleRate } = hingeRates(member, end, direction);
      const arm = subtract(applyPose(carrier, member.outboard), add(middle, scale(axis, along_mm)));
      const centreRate = add(middleRate, scale(axisRate, along_mm));
      return [-dot(arm, centreRate) / radius_mm, dot(axisRate, arm) - dot(axis, centreRate)];
    }
    case "hinge": {
      // the drawn half axis d stays square to b and a × b; where R·d = |d|·a, ḃ·a = −b·ȧ
      const { axis, axisRate, middleRate } = hingeRates(member, end, direction);
      const across = squareTo(axis);
      const half_mm = distance(member.front, member.rear) / 2;
      const square = [across, cross(axis, across)].map((side) => -half_mm * dot(side, axisRate));
      return [...middleRate.map((value) => -value), ...square];
    }
    case "strut": {
      // (R·n)·(T − c) − n·b
      const axis = normalise(subtract(member.top, member.bottom));
      const across = squareTo(axis);
      return [across, cross(axis, across)].map((normal) => dot(turnByPose(carrier, normal), direction));
    }
  }
}

function hingeRates(
  { frontMounted, rearMounted }: { readonly frontMounted: Vec3; readonly rearMounted: Vec3 },
  end: MountEnd,
  direction: Vec3,
): { axis: Vec3; axisRate: Vec3; middle: Vec3; middleRate: Vec3 } {
  const line = subtract(frontMounted, rearMounted);
  const axis = normalise(line);
  const lineRate = end === "front" ? direction : scale(direction, -1);
  const axisRate = scale(subtract(lineRate, scale(axis, dot(axis, lineRate))), 1 / length(line));
  return { axis, axisRate, middle: mix(frontMounted, rearMounted, 0.5), middleRate: scale(direction, 0.5) };
}
