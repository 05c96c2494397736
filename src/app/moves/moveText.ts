import type { LimitName, PairVerdict } from "../../check/result.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Change, MovePrice, PairPrice } from "../../studies/price.ts";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { nameOf, nameWithin } from "../words/names.ts";
import { angleText, lengthText } from "../words/number.ts";
import { namedFirst } from "../words/sentences.ts";
import { travelText } from "../words/travel.ts";

/** "Upper link and sump" */
export function pairText(pair: Pick<PairVerdict, "a" | "b">, scene: Scene | null): string {
  const [first, second] = namedFirst(pair, scene);
  return t("moves.pairOf", { a: nameOf(first, scene), b: nameWithin(second, scene) });
}

export interface PriceRow {
  readonly reading: "toe" | "camber" | "halfTrack" | "shaft";
  /** "+0.03° at +60 bump"; "as it was". */
  readonly text: string;
  /** Size of the change as a share of what is a lot of it, 0 to 1. */
  readonly share: number;
}

/** So much of a change fills its bar: a degree, or 20 mm. */
const A_LOT = { deg: 1, mm: 20 } as const;

/** Largest change of each reading over the travel. */
export function priceRows({ toe_deg, camber_deg, halfTrack_mm, shaft_mm }: MovePrice, unit: Unit): PriceRow[] {
  const angle = (reading: PriceRow["reading"], change: Change): PriceRow => ({
    reading,
    text:
      Math.abs(change.by) < 0.005
        ? t("moves.price.same")
        : at(angleText(change.by, { signed: true }), change.travel_mm, unit),
    share: Math.min(1, Math.abs(change.by) / A_LOT.deg),
  });
  const size = (reading: PriceRow["reading"], change: Change): PriceRow => ({
    reading,
    text:
      Math.abs(change.by) < 0.05
        ? t("moves.price.same")
        : at(lengthText(change.by, unit, { signed: true }), change.travel_mm, unit),
    share: Math.min(1, Math.abs(change.by) / A_LOT.mm),
  });
  return [
    angle("toe", toe_deg),
    angle("camber", camber_deg),
    size("halfTrack", halfTrack_mm),
    ...(shaft_mm ? [size("shaft", shaft_mm)] : []),
  ];
}

function at(amount: string, travel_mm: number, unit: Unit): string {
  return t("moves.price.at", { amount, where: travelText(travel_mm, unit) });
}

/** "Upper link and sump (left) come nearer: 14.2 mm, 31.0 mm before" */
export function pairPriceText(pair: PairPrice, scene: Scene | null, unit: Unit, kind: "open" | "nearer"): string {
  return t(`moves.price.${kind}`, {
    pair: pairText(pair, scene),
    side: t(`words.sides.${pair.side as "left" | "right" | "both"}`),
    after: lengthText(pair.after_mm, unit),
    before: lengthText(pair.before_mm, unit),
  });
}

const LIMITS: readonly LimitName[] = [
  "shaft-length",
  "inner-angle",
  "outer-angle",
  "damper-length",
  "stop",
  "strap",
  "coil-bind",
  "joint-tilt",
  "joint-twist",
  "binds",
];

/** A limit as the core names it ("left joint-tilt upper.inboard", "stop") in words. */
export function limitText(name: string): string {
  const known = LIMITS.find((limit) => name.split(" ").includes(limit));
  return known ? t(`card.limits.${known}`) : name;
}

/** Something that was left out of the question: a pair "a/b" or a limit. */
export function leftOutText(name: string, scene: Scene | null): string {
  const [a, b] = name.split("/");
  return a !== undefined && b !== undefined ? pairText({ a, b }, scene) : limitText(name);
}
