import type { CardDigest } from "./digest.ts";

/** Letters that are told apart from digits and each other at a glance (ASME Y14.35, from memory: I, O, Q, S, X and Z are left out). */
const LETTERS = "ABCDEFGHJKLMNPRTUVWY";

/** What a new card of the scene is likely to be called: what its last card was, "A" for the first. The builder says when it is a new one. */
export function usualRevision(
  digests: readonly Pick<CardDigest, "sceneTitle" | "revision" | "made">[],
  scene: string,
): string {
  const before = digests.filter(({ sceneTitle }) => sceneTitle === scene).sort((a, b) => (a.made < b.made ? 1 : -1));
  return before[0] === undefined ? LETTERS[0]! : before[0].revision;
}
