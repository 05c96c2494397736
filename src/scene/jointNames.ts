import type { SceneDocument } from "./document.ts";

const OF_MEMBER = {
  ball: ["at"],
  link: ["inboard", "outboard"],
  wishbone: ["front", "rear", "outboard"],
  hinge: ["front", "rear"],
  strut: ["top"],
} as const;

/** The names of the corner's joints, as the loads and the screening call them: "upper.inboard", "damper.top". */
export function jointNames({ members, damper, driveshaft, antiRollBar }: SceneDocument): string[] {
  return [
    ...members.flatMap(({ id, kind }) => OF_MEMBER[kind].map((end) => `${id}.${end}`)),
    ...(damper ? ["damper.top", "damper.bottom"] : []),
    ...(driveshaft ? ["driveshaft.inner", "driveshaft.outer"] : []),
    ...(antiRollBar ? ["bar.pivot", "bar.arm", "bar.pickup"] : []),
  ];
}

/** The part that a joint's name begins with: a member's id, "damper", "driveshaft" or "bar". */
export function partOfJoint(joint: string): string {
  return joint.slice(0, joint.lastIndexOf("."));
}
