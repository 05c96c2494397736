import type { CheckResult, PairVerdict } from "../check/result.ts";
import type { SceneDocument } from "../scene/document.ts";
import type { Scene, Side } from "../scene/scene.ts";
import {
  CARD_FORMAT,
  CARD_VERSION,
  CAUTION,
  type Card,
  type CardPhoto,
  type CardPicture,
  type CardPoint,
  type CardView,
  type CardWheel,
} from "./entry.ts";
import { canonicalJson, fingerprint } from "./hash.ts";
import { byGravity } from "./order.ts";
import { plain } from "./plain.ts";
import { changeThroughTravel, readingsAt } from "./readings.ts";

/** How many of the worst verdicts a card asks about: as many as a printed sheet has rows for. */
export const VERDICTS_IN_QUESTION = 6;

export interface CardInput {
  readonly document: SceneDocument;
  readonly scene: Scene;
  /** The check of exactly this document. */
  readonly result: CheckResult;
  readonly fileName: string;
  readonly title: string;
  readonly note: string;
  readonly unit: "mm" | "in";
  readonly travel_mm: Readonly<Record<Side, number>>;
  readonly pose: string;
  /** 1, or nothing: the engine is in the pose. */
  readonly share?: number;
  readonly picture: CardPicture | null;
  /** What the builder calls this state of the work; left out: nothing. */
  readonly revision?: string;
  readonly views?: readonly CardView[];
  readonly photos?: readonly CardPhoto[];
  readonly made: Date;
  readonly number: number;
  /** What the card warns of, where it is not made in English. */
  readonly caution?: string;
  /** Ids of the bodies and members that a named point carries, so that the card can say which points to measure. */
  readonly usersOfPoint: (name: string) => readonly string[];
}

/** The card of a checked scene. Nothing in it is shared with the input that may still change. */
export function makeCard(input: CardInput): Card {
  const { scene, result } = input;
  const pairs = [...result.pairs].sort(byGravity);
  return plain<Card>({
    format: CARD_FORMAT,
    version: CARD_VERSION,
    id: newId(),
    number: input.number,
    title: input.title.trim(),
    made: input.made.toISOString(),
    note: input.note.trim(),
    revision: (input.revision ?? "").trim(),
    unit: input.unit,
    fileName: input.fileName,
    sceneTitle: scene.title,
    travel_mm: { left: input.travel_mm.left, right: input.travel_mm.right },
    pose: input.pose,
    ...(input.share === undefined || input.share === 1 ? {} : { share: input.share }),
    poses: scene.powertrain.poses.map((pose) => pose.id),
    range_mm: { bump: scene.travel.bump_mm, droop: scene.travel.droop_mm },
    summary: result.summary,
    pairs,
    limits: result.limits,
    points: cardPoints(scene),
    inQuestion: pointsInQuestion(scene, pairs, input.usersOfPoint),
    wheels: scene.sides.flatMap((side) => cardWheel(result, side, input.travel_mm[side])),
    picture: input.picture,
    views: input.views ?? [],
    photos: input.photos ?? [],
    document: input.document,
    check: checkOf(input.document, result),
    caution: input.caution ?? CAUTION,
  });
}

/** The next card's number: one more than the highest ever given. */
export function nextNumber(numbersGiven: Iterable<number>): number {
  let highest = 0;
  for (const number of numbersGiven) highest = Math.max(highest, number);
  return highest + 1;
}

/** Ties a scene to what was found in it: the same document with the same verdicts gives the same sixteen hex digits. */
export function checkOf(document: SceneDocument, result: CheckResult): string {
  const verdicts = result.pairs.map((pair) => [
    pair.side,
    pair.a,
    pair.b,
    pair.verdict,
    pair.clearance_mm.toFixed(2),
    pair.required_mm,
  ]);
  const limits = result.limits.map((limit) => [
    limit.side,
    limit.what,
    ...(limit.joint === undefined ? [] : [limit.joint]),
    limit.verdict,
    limit.value.toFixed(2),
  ]);
  return fingerprint(canonicalJson({ document, verdicts, limits }));
}

function cardPoints(scene: Scene): CardPoint[] {
  return [...scene.points].map(([name, point]) => ({
    name,
    at: point.boltedUpAt ?? point.at,
    tolerance_mm: point.tolerance_mm,
    how: point.how,
  }));
}

function pointsInQuestion(
  scene: Scene,
  pairs: readonly PairVerdict[],
  usersOfPoint: (name: string) => readonly string[],
): string[] {
  const worst = pairs
    .filter((pair) => pair.verdict === "clash" || pair.verdict === "tight")
    .slice(0, VERDICTS_IN_QUESTION);
  const inOrder = worst.flatMap((pair) => [pair.a, pair.b]);
  const rank = (name: string) => {
    const found = usersOfPoint(name)
      .map((user) => inOrder.indexOf(user))
      .filter((index) => index >= 0);
    return found.length > 0 ? Math.min(...found) : null;
  };
  return [...scene.points.keys()]
    .map((name) => ({ name, rank: rank(name) }))
    .filter((point): point is { name: string; rank: number } => point.rank !== null)
    .sort((a, b) => a.rank - b.rank)
    .map((point) => point.name);
}

function cardWheel(result: CheckResult, side: Side, travel_mm: number): CardWheel[] {
  const curves = result.sides[side];
  if (curves === undefined) return [];
  return [
    {
      side,
      now: readingsAt(curves.curve, travel_mm),
      change: changeThroughTravel(curves.curve),
      bindsAt_mm: curves.bindsAt_mm,
    },
  ];
}

/** randomUUID is missing where the page is not served securely (a phone reading from the workshop's computer). */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
