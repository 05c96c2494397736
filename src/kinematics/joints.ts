import { distance, mirror, type Vec3 } from "../maths/vec3.ts";
import type { Member, Scene, Side } from "../scene/scene.ts";
import { shaftDesign } from "./shaft.ts";

/** A place where two mounts are joined; bodies on them may touch near it. */
export interface Joint {
  /** Unique in the corner, e.g. "upper.inboard", "damper.top". */
  readonly id: string;
  readonly between: readonly [string, string];
  /** Design position in the left frame, on the second mount. */
  readonly at: Vec3;
  /**
   * The same on the first mount, in the left frame too. It differs from `at` for a mount that was moved with the parts'
   * lengths kept, and for the shaft's inner joint, whose place on the powertrain is its own on either side.
   */
  readonly atFirst: Vec3;
}

/** The corner's joints for one side. Positions are in the left frame: mirror them for bodies of the right side. */
export function listJoints(scene: Scene, side: Side = "left"): Joint[] {
  const joints: Joint[] = [];
  const add = (id: string, first: string, second: string, at: Vec3, atFirst: Vec3 = at) =>
    joints.push({ id, between: [first, second], at, atFirst });
  for (const member of scene.members) {
    const { id } = member;
    switch (member.kind) {
      case "link":
        add(`${id}.inboard`, "chassis", id, member.inboard, member.inboardMounted);
        add(`${id}.outboard`, id, "carrier", member.outboard);
        break;
      case "wishbone":
        add(`${id}.front`, "chassis", id, member.front, member.frontMounted);
        add(`${id}.rear`, "chassis", id, member.rear, member.rearMounted);
        add(`${id}.outboard`, id, "carrier", member.outboard);
        break;
      case "ball":
        add(`${id}.at`, "chassis", "carrier", member.at, member.atMounted);
        break;
      case "hinge":
        add(`${id}.front`, "chassis", "carrier", member.front, member.frontMounted);
        add(`${id}.rear`, "chassis", "carrier", member.rear, member.rearMounted);
        break;
      case "strut":
        add(`${id}.top`, "chassis", "carrier", member.top, member.topMounted);
    }
  }
  const { damper, driveshaft, antiRollBar } = scene;
  if (damper) {
    add("damper.top", "chassis", "damper-upper", damper.top, damper.topMounted);
    add("damper.bottom", "damper-lower", damper.on, damper.bottom);
  }
  const shaft = shaftDesign(scene, side);
  if (driveshaft && shaft) {
    const inner = driveshaft.inner[side].at;
    add("driveshaft.inner", "powertrain", "driveshaft", shaft.inner, side === "left" ? inner : mirror(inner));
    add("driveshaft.outer", "driveshaft", "carrier", driveshaft.outer);
  }
  if (antiRollBar) {
    add("bar.pivot", "chassis", "bar", antiRollBar.pivot, antiRollBar.pivotMounted);
    add("bar.arm", "bar", "bar-link", antiRollBar.arm);
    add("bar.pickup", "bar-link", antiRollBar.on, antiRollBar.pickup);
  }
  return joints;
}

/** Lengths that a tape can measure on one member, mm, by name. */
export interface MemberLengths {
  readonly id: string;
  readonly kind: Member["kind"];
  /** Between the centres of two eyes or joints of the part; empty for a ball. */
  readonly lengths: readonly { readonly between: string; readonly mm: number }[];
}

/** Eye-to-eye lengths of every member as drawn. */
export function memberLengths(scene: Scene): MemberLengths[] {
  return scene.members.map((member) => ({ id: member.id, kind: member.kind, lengths: lengthsOf(member) }));
}

function lengthsOf(member: Member): MemberLengths["lengths"] {
  switch (member.kind) {
    case "link":
      return [{ between: "inboard–outboard", mm: distance(member.inboard, member.outboard) }];
    case "wishbone":
      return [
        { between: "front–outboard", mm: distance(member.front, member.outboard) },
        { between: "rear–outboard", mm: distance(member.rear, member.outboard) },
        { between: "front–rear", mm: distance(member.front, member.rear) },
      ];
    case "hinge":
      return [{ between: "front–rear", mm: distance(member.front, member.rear) }];
    case "strut":
      return [{ between: "top–bottom", mm: distance(member.top, member.bottom) }];
    case "ball":
      return [];
  }
}
