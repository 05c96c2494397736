import type { ClashDecision, ClashState } from "./decision.ts";
import type { CardDigest, Finding } from "./digest.ts";

/** One line of the list of what is open: something that a card found, who sees to it, and how it stands. */
export interface ClashItem {
  readonly scene: string;
  readonly key: string;
  /** As the last card that found it has it. */
  readonly finding: Finding;
  /** Numbers of the cards that found it first and last, and of the scene's newest card. */
  readonly first: number;
  readonly last: number;
  readonly newest: number;
  readonly state: ClashState;
  readonly owner: string;
  readonly why: string;
  /** Who says so: the builder's last word, the scene's own list of what is accepted, or the newest check; null: nobody yet. */
  readonly by: "builder" | "scene" | "check" | null;
  /** Builder and newest card disagree: said to be fixed, but still found; or open, but no longer checked there. */
  readonly doubt: "still-found" | "not-checked" | null;
}

/**
 * All that any card of the log found, one line each: open ones first, in the order of their gravity, then accepted, then
 * fixed. The builder's last word holds; what nobody spoke of is open, unless the newest card finds it clear (fixed) or the
 * scene accepts it. A clash that was said to be open is fixed when a card made after that finds it clear.
 */
export function clashList(digests: readonly CardDigest[], decisions: readonly ClashDecision[]): ClashItem[] {
  const said = new Map<string, ClashDecision>();
  for (const decision of [...decisions].sort(byTime)) said.set(lineKey(decision.scene, decision.key), decision);
  const scenes = new Map<string, CardDigest[]>();
  for (const digest of digests) {
    const of = scenes.get(digest.sceneTitle);
    if (of) of.push(digest);
    else scenes.set(digest.sceneTitle, [digest]);
  }
  const items = [...scenes].flatMap(([scene, of]) => linesOfScene(scene, [...of].sort(byTime), said));
  return items.sort((a, b) => RANK[a.state] - RANK[b.state] || byWeight(a.finding, b.finding));
}

const RANK: Readonly<Record<ClashState, number>> = { open: 0, accepted: 1, fixed: 2 };

function linesOfScene(
  scene: string,
  cards: readonly CardDigest[],
  said: ReadonlyMap<string, ClashDecision>,
): ClashItem[] {
  const newest = cards.at(-1)!;
  const found = new Map<string, { first: number; last: number; finding: Finding }>();
  for (const card of cards) {
    for (const finding of card.findings) {
      const before = found.get(finding.key);
      found.set(finding.key, { first: before?.first ?? card.number, last: card.number, finding });
    }
  }
  const clear = new Set(newest.clear.split("\n"));
  const now = new Map(newest.findings.map((finding) => [finding.key, finding]));
  return [...found].map(([key, { first, last, finding }]) => {
    const word = said.get(lineKey(scene, key));
    const standing = standingOf(word, clear.has(key), now.get(key), newest);
    return { scene, key, finding, first, last, newest: newest.number, owner: word?.owner ?? "", ...standing };
  });
}

function standingOf(
  word: ClashDecision | undefined,
  isClear: boolean,
  now: Finding | undefined,
  newest: CardDigest,
): Pick<ClashItem, "state" | "why" | "by" | "doubt"> {
  const isFound = now !== undefined && now.verdict !== "accepted";
  const why = word?.why ?? "";
  if (word && (word.state !== "open" || !isClear || word.made > newest.made)) {
    const stillFound = word.state === "fixed" && isFound;
    const notChecked = word.state === "open" && !isClear && now === undefined;
    return {
      state: word.state,
      why,
      by: "builder",
      doubt: stillFound ? "still-found" : notChecked ? "not-checked" : null,
    };
  }
  if (isClear) return { state: "fixed", why, by: "check", doubt: null };
  if (now?.verdict === "accepted") return { state: "accepted", why: now.why ?? "", by: "scene", doubt: null };
  return { state: "open", why, by: null, doubt: now === undefined ? "not-checked" : null };
}

function lineKey(scene: string, key: string): string {
  return JSON.stringify([scene, key]);
}

function byTime(a: { made: string; id: string }, b: { made: string; id: string }): number {
  if (a.made !== b.made) return a.made < b.made ? -1 : 1;
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}

/** Clashes by depth, then limits that are passed, then what is tight by the room that is missing. */
function byWeight(a: Finding, b: Finding): number {
  return weight(a) - weight(b) || shortOf(a) - shortOf(b) || (a.key < b.key ? -1 : a.key > b.key ? 1 : 0);
}

function weight({ of, verdict }: Finding): number {
  if (verdict === "accepted") return 3;
  if (verdict === "tight") return 2;
  return of.kind === "pair" ? 0 : 1;
}

function shortOf({ of, verdict }: Finding): number {
  if (of.kind === "limit") return 0;
  return verdict === "clash" ? of.clearance_mm : of.clearance_mm - of.required_mm;
}
