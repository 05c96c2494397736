import type { SceneDocument } from "./document.ts";
import { jointNames, partOfJoint } from "./jointNames.ts";
import { nearestOf } from "./nearest.ts";
import { shortQuote } from "./path.ts";
import type { Resolving } from "./resolving.ts";

export type TubeEnd = NonNullable<SceneDocument["tubeEnds"]>[number];

export const TUBE_END_KINDS = ["rod end", "sleeve", "square"] as const satisfies readonly TubeEnd["kind"][];

/** An end of that kind to begin with, until the maker's sizes stand in it: a male rod end M16 (ISO 12240-4, series K; from memory). */
export function usualTubeEnd(joint: string, kind: TubeEnd["kind"]): TubeEnd {
  switch (kind) {
    case "rod end":
      return { joint, kind, thread_mm: 16, pitch_mm: 2, eye_mm: 66, shank_mm: 40, depth_mm: 34 };
    case "sleeve":
      return { joint, kind, outside_mm: 38 };
    case "square":
      return { joint, kind, short_mm: 20 };
  }
}

/** The joints in which a tube can end: of links, wishbones, and the anti-roll bar's drop link. */
export function tubeEndJoints(document: SceneDocument): string[] {
  const withTubes = new Set(
    document.members.filter(({ kind }) => kind === "link" || kind === "wishbone").map(({ id }) => id),
  );
  return jointNames(document).filter(
    (joint) => withTubes.has(partOfJoint(joint)) || joint === "bar.arm" || joint === "bar.pickup",
  );
}

/** Throws InputError `missing-id` or `duplicate-id`. */
export function checkTubeEnds(document: SceneDocument, { refuse }: Resolving): void {
  const { tubeEnds = [] } = document;
  const known = tubeEndJoints(document);
  for (const [i, { joint }] of tubeEnds.entries()) {
    const path = `tubeEnds[${i}].joint`;
    if (!known.includes(joint)) {
      const nearest = nearestOf(joint, known);
      const wanted = nearest
        ? `${nearest}?`
        : known.length > 0
          ? `one of ${known.join(", ")}`
          : "a scene with links or wishbones";
      throw refuse("missing-id", path, `no tube ends at ${shortQuote(joint)}`, wanted);
    }
    if (tubeEnds.findIndex((other) => other.joint === joint) < i)
      throw refuse("duplicate-id", path, `${shortQuote(joint)} stands here already`, "one record a joint");
  }
}

/** The document with a member's ends under another id. */
export function withTubeEndsRenamed(document: SceneDocument, from: string, to: string): SceneDocument {
  if (!document.tubeEnds) return document;
  const tubeEnds = document.tubeEnds.map((end) =>
    partOfJoint(end.joint) === from ? { ...end, joint: to + end.joint.slice(from.length) } : end,
  );
  return { ...document, tubeEnds };
}

/** The document without the ends of these parts ("bar" for the drop link). */
export function withoutTubeEndsOf(document: SceneDocument, parts: readonly string[]): SceneDocument {
  if (!document.tubeEnds) return document;
  return { ...document, tubeEnds: document.tubeEnds.filter(({ joint }) => !parts.includes(partOfJoint(joint))) };
}
