import type { SceneDocument } from "./document.ts";
import { partOfJoint } from "./jointNames.ts";

type LoadsDocument = NonNullable<SceneDocument["loads"]>;

const BY_JOINT = ["bolts", "plates", "welds", "ratings"] as const;

/** The document's load records with a member under another id. */
export function withLoadsRenamed(document: SceneDocument, from: string, to: string): SceneDocument {
  const { loads } = document;
  if (!loads) return document;
  const renamed: Record<string, unknown> = { ...loads };
  if (loads.tubes) renamed.tubes = loads.tubes.map((tube) => (tube.member === from ? { ...tube, member: to } : tube));
  for (const list of BY_JOINT) {
    if (!loads[list]) continue;
    renamed[list] = loads[list].map((entry) =>
      partOfJoint(entry.joint) === from ? { ...entry, joint: to + entry.joint.slice(from.length) } : entry,
    );
  }
  return { ...document, loads: renamed as LoadsDocument };
}

/** The document without what its load records say of these parts ("damper", "driveshaft" and "bar" for the units). */
export function withoutLoadsOf(document: SceneDocument, parts: readonly string[]): SceneDocument {
  const { loads } = document;
  if (!loads) return document;
  const kept: Record<string, unknown> = { ...loads };
  if (loads.tubes) kept.tubes = loads.tubes.filter(({ member }) => !parts.includes(member));
  for (const list of BY_JOINT) {
    if (loads[list]) kept[list] = loads[list].filter(({ joint }) => !parts.includes(partOfJoint(joint)));
  }
  if (parts.includes("driveshaft")) delete kept.brakes;
  if (loads.cases) {
    kept.cases = loads.cases.map((one) => {
      const { torque, roll_deg, ...rest } = one;
      return {
        ...rest,
        ...(torque && !(torque === "shaft" && parts.includes("driveshaft")) ? { torque } : {}),
        ...(roll_deg !== undefined && !parts.includes("bar") ? { roll_deg } : {}),
      };
    });
  }
  return { ...document, loads: kept as LoadsDocument };
}
