import type { Card, CardWheel } from "../../buildlog/entry.ts";
import { VERDICTS_IN_QUESTION } from "../../buildlog/make.ts";
import type { PairVerdict } from "../../check/result.ts";
import { isPairRow, type LimitRow, ledgerRows, type PairRow, type RowKind, tallies } from "../corner/ledgerRows.ts";
import type { MarkKind } from "../marks/GapMark.tsx";
import { pointInfos } from "../points/pointInfo.ts";
import type { Unit } from "../store/state.ts";
import { listText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { engineText, nameOf, nameWithin } from "../words/names.ts";
import { angleText, lengthNumber, lengthText, numberText, wantedText } from "../words/number.ts";
import { isAngle } from "../words/sentences.ts";
import { travelNumber, travelText } from "../words/travel.ts";

/** One line of a card's verdict table, in words. Lengths are in the unit asked for, which the table's head names. */
export interface VerdictFact {
  readonly key: string;
  readonly mark: MarkKind;
  /** "Upper link, mount ear (left)". */
  readonly name: string;
  /** "6.2 too deep at +38". */
  readonly closest: string;
  readonly wants: string;
  /** null for a limit. */
  readonly pair: PairVerdict | null;
}

export interface PointFact {
  /** The point's id in the scene. */
  readonly name: string;
  /** What people call it: "Upper link, inboard end". */
  readonly title: string;
  readonly forward: string;
  readonly out: string;
  readonly up: string;
}

export interface Reading {
  readonly name: string;
  readonly value: string;
}

/** "+38 bump, engine on overrun". */
export function stateText(card: Card, unit: Unit): string {
  const { left, right } = card.travel_mm;
  const travel =
    Math.abs(left - right) < 0.05
      ? travelText(left, unit)
      : t("card.unevenTravel", { left: travelText(left, unit), right: travelText(right, unit) });
  return t("card.state", { travel, engine: engineText(card.pose, card.share) });
}

/** "2 clash, 4 tight, 37 clear; 3 engine poses; both sides; mm". */
export function checkedText(card: Card, unit: Unit): string {
  const counts = cardTallies(card);
  const kinds = (["clash", "limit", "tight", "clear", "accepted"] as const).filter(
    (kind) => counts[kind] > 0 || (kind !== "limit" && kind !== "accepted"),
  );
  const count = card.poses.length;
  const sides = card.wheels.length === 2 ? "both" : (card.wheels[0]?.side ?? "one");
  return t("card.checked", {
    tally: listText(
      kinds.map((kind) => t(`card.tally.${kind}`, { count: counts[kind] })),
      "unit",
    ),
    engine: count > 1 ? t("card.checkedEngine.poses", { count }) : t("card.checkedEngine.rest"),
    sides: t(`card.checkedSides.${sides}`),
    unit,
  });
}

/** "Upper link, mount ear": the two parts of a pair, what moves with the wheel first. */
export function pairName(card: Pick<Card, "document">, pair: Pick<PairVerdict, "a" | "b">): string {
  const [first, second] = standing(card, pair.a) > standing(card, pair.b) ? [pair.b, pair.a] : [pair.a, pair.b];
  return t("card.pair", { a: nameOf(first, card.document), b: nameWithin(second, card.document) });
}

/** What a card lists, as the ledger does: what touches, limits passed, what is tight; else the closest pairs that are clear. */
export function verdictFacts(card: Card, unit: Unit): VerdictFact[] {
  const rows = ledgerRows(card);
  const open = rows.filter((row) => row.kind === "clash" || row.kind === "limit" || row.kind === "tight");
  const closest = rows.filter((row) => row.kind === "clear" && isPairRow(row)).slice(0, VERDICTS_IN_QUESTION);
  return (open.length > 0 ? open : closest).map((row) =>
    isPairRow(row) ? pairFact(card, row, unit) : limitFact(row, unit),
  );
}

/** How many of each, counted as the ledger counts: a pair that fares the same on both sides is one. */
export function cardTallies(card: Pick<Card, "pairs" | "limits">): Record<RowKind, number> {
  return tallies(ledgerRows(card));
}

/** Differences below this do not show in a figure. */
const ALIKE_mm = 0.05;

/** "left", "both", or "both, left is closer". */
function sideText(side: PairVerdict["side"], apart: number | null): string {
  if (apart === null || side === "both") return t(`card.sides.${side}`);
  return Math.abs(apart) < ALIKE_mm ? t("card.sides.both") : t(`card.closer.${side}`);
}

/** 0: moves with the wheel; 1: the powertrain; 2: the chassis. */
function standing(card: Pick<Card, "document">, id: string): number {
  const on = card.document.bodies.find((body) => body.id === id)?.on;
  return on === "chassis" ? 2 : on === "powertrain" ? 1 : 0;
}

function pairFact(card: Card, { pair, twin }: PairRow, unit: Unit): VerdictFact {
  const apart = twin && pair.clearance_mm - twin.clearance_mm;
  const gap = lengthNumber(Math.abs(pair.clearance_mm), unit);
  const travel = travelNumber(pair.at.travel_mm, unit);
  return {
    key: `${pair.side}/${pair.a}/${pair.b}`,
    mark: pair.verdict,
    name: t("card.named", { name: pairName(card, pair), side: sideText(pair.side, apart) }),
    closest: t(`card.closest.${pair.clearance_mm < 0 ? "deep" : "off"}`, { gap, travel }),
    wants: wantedText(pair.required_mm, unit).replace(` ${unit}`, ""),
    pair,
  };
}

function limitFact({ limit, twin }: LimitRow, unit: Unit): VerdictFact {
  const inDegrees = isAngle(limit);
  const value = (amount: number) => {
    if (inDegrees) return `${numberText(amount, { digits: 1 })}°`;
    return limit.what === "binds" ? travelNumber(amount, unit) : lengthNumber(amount, unit);
  };
  return {
    key: `${limit.side}/${limit.what}/${limit.joint ?? ""}/${limit.limit}`,
    mark: "limit",
    name: t("card.named", {
      name: t(`card.limits.${limit.what}`),
      side: t(`card.sides.${twin ? "both" : limit.side}`),
    }),
    closest:
      limit.what === "binds"
        ? t("card.closest.binds", { travel: value(limit.value) })
        : t("card.closest.limit", { value: value(limit.value), travel: travelNumber(limit.at.travel_mm, unit) }),
    wants: `${limit.value > limit.limit ? "≤" : "≥"} ${value(limit.limit)}`,
    pair: null,
  };
}

/** The hard points in question, from the ground, the centre plane and the axle line. */
export function pointFacts(card: Card, unit: Unit): PointFact[] {
  const titles = new Map(pointInfos(card.document).map((info) => [info.name, info.title]));
  return card.inQuestion.flatMap((name) => {
    const point = card.points.find((found) => found.name === name);
    if (!point) return [];
    const [x, y, z] = point.at.map((mm) => lengthNumber(mm, unit)) as [string, string, string];
    return [{ name, title: titles.get(name) ?? name, forward: x, out: y, up: z }];
  });
}

/** The wheel's readings at the card's travel; an empty list where the corner does not go that far. */
export function wheelReadings(wheel: CardWheel, unit: Unit): Reading[] {
  const { now } = wheel;
  if (!now) return [];
  return [
    { name: t("card.readings.toe"), value: angleText(now.toe_deg, { signed: true }) },
    { name: t("card.readings.camber"), value: angleText(now.camber_deg, { signed: true }) },
    { name: t("card.readings.halfTrack"), value: lengthText(now.halfTrack_mm, unit) },
    ...(now.shaft_mm === null ? [] : [{ name: t("card.readings.shaft"), value: lengthText(now.shaft_mm, unit) }]),
  ];
}

/** The side that a card is about: that of its worst verdict, else the first one. */
export function cardSide(card: Card): "left" | "right" {
  const side = card.pairs[0]?.side;
  return side === "right" ? "right" : side === "left" ? "left" : (card.wheels[0]?.side ?? "left");
}

/** "wren-rear.json, check 7f3a21bc". */
export function originText(card: Card): string {
  return t("card.origin", { file: card.fileName || card.sceneTitle, check: card.check.slice(0, 8) });
}
