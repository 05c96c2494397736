import type { LengthUnit } from "../../scene/length.ts";
import { type ClashItem, clashList } from "../clashes.ts";
import { digestOf } from "../digest.ts";
import { CAUTION } from "../entry.ts";
import type { BuildLog } from "../logfile.ts";
import type { ReportBlock, TableBlock } from "./blocks.ts";
import { cardReport } from "./cardReport.ts";
import { DATUM, tellGap, tellStanding, tellState, tellUnits, tellWanted, tellWhat, tellWhen } from "./tell.ts";

export interface ReportOptions {
  readonly unit: LengthUnit;
  /** Numbers of the cards to tell; left out: all. */
  readonly only?: readonly number[];
}

/** The log as a report: what is still open, then every card in the order they were made, each with what it changed. */
export function logReport(log: BuildLog, { unit, only }: ReportOptions): ReportBlock[] {
  const cards = [...log.cards].sort((a, b) => a.number - b.number || (a.made < b.made ? -1 : 1));
  const items = clashList(cards.map(digestOf), log.decisions);
  const told = only === undefined ? cards : cards.filter((card) => only.includes(card.number));
  return [
    { kind: "heading", level: 1, text: reportTitle(log) },
    { kind: "facts", facts: logFacts(log, unit) },
    { kind: "text", look: "caution", text: CAUTION },
    { kind: "heading", level: 2, text: "Clash list" },
    ...clashBlocks(items, unit),
    ...told.flatMap((card) => {
      const before = cards.filter((other) => other.sceneTitle === card.sceneTitle && other.number < card.number).at(-1);
      return cardReport(card, before ?? null, unit);
    }),
  ];
}

/** "Build log: Wren rear end". */
export function reportTitle(log: BuildLog): string {
  return log.cards.length === 0 ? "Build log" : `Build log: ${sceneTitles(log)}`;
}

export function sceneTitles({ cards }: BuildLog): string {
  return [...new Set(cards.map((card) => card.sceneTitle))].join(", ");
}

function logFacts({ cards }: BuildLog, unit: LengthUnit): [string, string][] {
  const made = cards.map((card) => card.made).sort();
  const [first, last] = [made[0], made.at(-1)];
  return [
    ["Cards", String(cards.length)],
    ...(first && last
      ? [["From", tellWhen(first)] as [string, string], ["To", tellWhen(last)] as [string, string]]
      : []),
    ["Units", tellUnits(unit)],
    ["Datum", DATUM],
  ];
}

function clashBlocks(items: readonly ClashItem[], unit: LengthUnit): ReportBlock[] {
  if (items.length === 0)
    return [{ kind: "text", look: "plain", text: "No card found anything that clashes or is tight." }];
  return [clashTable(items, unit)];
}

export function clashTable(items: readonly ClashItem[], unit: LengthUnit): TableBlock {
  const open = items.filter((item) => item.state === "open").length;
  return {
    kind: "table",
    caption: `${open} open of ${items.length} found, ${unit}`,
    head: ["What", "Closest", "Wanted", "Where", "Cards", "Owner", "State"],
    rows: items.map((item) => [
      tellWhat(item.finding),
      tellGap(item.finding, unit),
      tellWanted(item.finding, unit),
      tellState(item.finding.at, unit),
      item.first === item.last ? String(item.first) : `${item.first} to ${item.last}`,
      item.owner,
      tellStanding(item),
    ]),
    figures: [1, 2],
  };
}
