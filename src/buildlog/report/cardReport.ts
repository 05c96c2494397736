import { formatLength, type LengthUnit } from "../../scene/length.ts";
import { compareCards, hasChanged } from "../compare.ts";
import { digestOf } from "../digest.ts";
import type { Card, CardWheel } from "../entry.ts";
import { pictureBlock, type ReportBlock, type TableBlock } from "./blocks.ts";
import {
  tellBasis,
  tellEngine,
  tellGap,
  tellState,
  tellWanted,
  tellWhat,
  tellWheels,
  tellWhen,
  VIEW_WORDS,
} from "./tell.ts";

/** One card in full, with what moved since the card `before` and what it cost. */
export function cardReport(card: Card, before: Card | null, unit: LengthUnit): ReportBlock[] {
  return [
    { kind: "heading", level: 2, text: `Card ${card.number}: ${card.title}`, card: card.id },
    { kind: "facts", facts: cardFacts(card, unit) },
    ...(card.note ? [{ kind: "text", look: "note", text: card.note } as const] : []),
    ...views(card, unit),
    findings(card, unit),
    ...wheels(card, unit),
    ...(before ? changes(before, card, unit) : []),
    ...card.photos.map(
      (photo): ReportBlock => ({ ...photo, kind: "picture", isPhoto: true, caption: photo.caption || photo.name }),
    ),
    { kind: "text", look: "caution", text: card.caution },
  ];
}

function cardFacts(card: Card, unit: LengthUnit): [string, string][] {
  const { clash, tight, clear, accepted } = card.summary;
  const poses = card.poses.length === 1 ? "engine at rest" : `${card.poses.length} engine poses`;
  const { bump, droop } = card.range_mm;
  const past = card.limits.filter((limit) => limit.verdict === "clash").length;
  return [
    ["Date", tellWhen(card.made)],
    ...(card.revision ? [["Revision", card.revision] as [string, string]] : []),
    ["Scene", card.fileName ? `${card.sceneTitle} (${card.fileName})` : card.sceneTitle],
    ["State", tellBasis(card)],
    ["Shown at", `${tellWheels(card.travel_mm, unit)}, ${tellEngine(card)}`],
    ["Checked", `${formatLength(droop, unit)} droop to ${formatLength(bump, unit, { withUnit: true })} bump, ${poses}`],
    ["Verdicts", `${clash} clash, ${tight} tight, ${clear} clear, ${accepted} accepted, ${past} past a limit`],
    ["Check", card.check],
  ];
}

function views(card: Card, unit: LengthUnit): ReportBlock[] {
  const shown = `As shown, ${tellWheels(card.travel_mm, unit)}, ${tellEngine(card)}`;
  return [
    ...(card.picture ? [pictureBlock(card.picture, shown)] : []),
    ...card.views.map((view) =>
      pictureBlock(
        view.picture,
        `${view.name || VIEW_WORDS[view.state]}, ${tellWheels(view.travel_mm, unit)}, ${tellEngine(view)}`,
      ),
    ),
  ];
}

function findings(card: Card, unit: LengthUnit): ReportBlock {
  const { findings } = digestOf(card);
  if (findings.length === 0) return { kind: "text", look: "plain", text: "Nothing clashes, nothing is tight." };
  return {
    kind: "table",
    caption: `Verdicts over the whole travel, ${unit}`,
    head: ["What", "Verdict", "Closest", "Wanted", "Where"],
    rows: findings.map((finding) => [
      tellWhat(finding),
      finding.of.kind === "limit" ? "past its limit" : finding.why ? `accepted: ${finding.why}` : finding.verdict,
      tellGap(finding, unit),
      tellWanted(finding, unit),
      tellState(finding.at, unit),
    ]),
    figures: [2, 3],
  };
}

function wheels(card: Card, unit: LengthUnit): ReportBlock[] {
  if (card.wheels.length === 0) return [];
  return [
    {
      kind: "table",
      caption: `Wheel at ${tellWheels(card.travel_mm, unit)}, and how far it runs through the travel; toe + in, camber − top in, ${unit}`,
      head: [
        "Side",
        "Toe",
        "Camber",
        "Half track",
        "Driveshaft",
        "Toe runs",
        "Camber runs",
        "Half track runs",
        "Plunge",
      ],
      rows: card.wheels.map((wheel) => wheelRow(wheel, unit)),
      figures: [1, 2, 3, 4, 5, 6, 7, 8],
    },
  ];
}

function wheelRow({ side, now, change }: CardWheel, unit: LengthUnit): string[] {
  const length = (value: number | null | undefined) => (value == null ? "–" : formatLength(value, unit));
  return [
    side,
    now ? degrees(now.toe_deg, true) : "–",
    now ? degrees(now.camber_deg, true) : "–",
    length(now?.halfTrack_mm),
    length(now?.shaft_mm),
    degrees(change.toe_deg),
    degrees(change.camber_deg),
    length(change.halfTrack_mm),
    length(change.plunge_mm),
  ];
}

function degrees(value: number, signed = false): string {
  const size = `${Math.abs(value).toFixed(2)}°`;
  if (!/[1-9]/.test(size)) return size;
  return `${value < 0 ? "−" : signed ? "+" : ""}${size}`;
}

function changes(before: Card, after: Card, unit: LengthUnit): ReportBlock[] {
  const { moved, otherChanges } = compareCards(before, after);
  const tables: TableBlock[] = [];
  if (moved.length > 0) {
    const place = (at: readonly number[] | null) =>
      at ? at.map((mm) => formatLength(mm, unit)).join(", ") : "not there";
    tables.push({
      kind: "table",
      caption: `Moved since card ${before.number}: forward, out, up, ${unit}`,
      head: ["Point", `Card ${before.number}`, `Card ${after.number}`, "By", "How far"],
      rows: moved.map((point) => [
        point.name,
        place(point.before),
        place(point.after),
        point.by ? point.by.map((mm) => formatLength(mm, unit, { signed: true })).join(", ") : "–",
        point.distance_mm === null ? "–" : formatLength(point.distance_mm, unit),
      ]),
      figures: [1, 2, 3, 4],
    });
  }
  const cost = costTable(before, after, unit);
  if (cost) tables.push(cost);
  const also: ReportBlock[] =
    otherChanges.length === 0
      ? []
      : [
          {
            kind: "text",
            look: "plain",
            text: `Also changed in the scene since card ${before.number}: ${otherChanges.map(({ path }) => path).join(", ")}.`,
          },
        ];
  return [...tables, ...also];
}

/** What the changes since the card `before` cost or won: wheel angles through the travel, and room. */
export function costTable(before: Card, after: Card, unit: LengthUnit): TableBlock | null {
  const { wheels, pairs } = compareCards(before, after);
  const length = (mm: number | null | undefined) => (mm == null ? "–" : formatLength(mm, unit));
  const rows: string[][] = [];
  for (const { side, before: a, after: b } of wheels) {
    if (!a || !b) continue;
    const angle = (name: string, from: number, to: number) => {
      if (degrees(from) !== degrees(to))
        rows.push([`${name} (${side})`, degrees(from), degrees(to), degrees(to - from, true)]);
    };
    const mm = (name: string, from: number | null, to: number | null) => {
      if (from === null || to === null || length(from) === length(to)) return;
      rows.push([`${name} (${side})`, length(from), length(to), formatLength(to - from, unit, { signed: true })]);
    };
    angle("Toe through travel", a.toe_deg, b.toe_deg);
    angle("Camber through travel", a.camber_deg, b.camber_deg);
    mm("Half track through travel", a.halfTrack_mm, b.halfTrack_mm);
    mm("Plunge", a.plunge_mm, b.plunge_mm);
  }
  for (const pair of pairs.filter(hasChanged)) {
    rows.push([
      `Room of ${pair.a} and ${pair.b}${pair.side === "both" ? "" : ` (${pair.side})`}`,
      pair.before ? formatLength(pair.before.clearance_mm, unit, { signed: true }) : "not checked",
      pair.after ? formatLength(pair.after.clearance_mm, unit, { signed: true }) : "not checked",
      pair.won_mm === null ? "–" : formatLength(pair.won_mm, unit, { signed: true }),
    ]);
  }
  if (rows.length === 0) return null;
  return {
    kind: "table",
    caption: `What it cost or won since card ${before.number}, ${unit}`,
    head: ["What", `Card ${before.number}`, `Card ${after.number}`, "By"],
    rows,
    figures: [1, 2, 3],
  };
}
