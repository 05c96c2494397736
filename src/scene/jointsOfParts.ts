import type { SceneDocument } from "./document.ts";
import { partOfJoint } from "./jointNames.ts";

/** The document's joint records with a member under another id. */
export function withJointsRenamed(document: SceneDocument, from: string, to: string): SceneDocument {
  if (!document.joints) return document;
  const joints = document.joints.map((fit) =>
    partOfJoint(fit.joint) === from ? { ...fit, joint: to + fit.joint.slice(from.length) } : fit,
  );
  return { ...document, joints };
}

/** The document without the joint records of these parts ("damper" and "bar" for the units). */
export function withoutJointsOf(document: SceneDocument, parts: readonly string[]): SceneDocument {
  if (!document.joints) return document;
  return { ...document, joints: document.joints.filter(({ joint }) => !parts.includes(partOfJoint(joint))) };
}
