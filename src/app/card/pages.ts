import type { PointFact, VerdictFact } from "./facts.ts";
import type { Paper } from "./printing.ts";

export interface CardPage {
  readonly first: boolean;
  readonly verdicts: readonly VerdictFact[];
  readonly points: readonly PointFact[];
  readonly note: boolean;
}

/** Rows that the first sheet has room for beside the picture, and a sheet of its own. */
const FIRST_VERDICTS: Readonly<Record<Paper, number>> = { a4: 6, letter: 5 };
const FIRST_POINTS: Readonly<Record<Paper, number>> = { a4: 5, letter: 4 };
const FURTHER_ROWS = 22;

/** Shares a card out over sheets; nothing is left off. `noteFits` tells whether the note has room on the first one. */
export function cardPages(
  verdicts: readonly VerdictFact[],
  points: readonly PointFact[],
  paper: Paper,
  noteFits: boolean,
): CardPage[] {
  const first: CardPage = {
    first: true,
    verdicts: verdicts.slice(0, FIRST_VERDICTS[paper]),
    points: points.slice(0, FIRST_POINTS[paper]),
    note: noteFits,
  };
  const rest: { verdicts: VerdictFact[]; points: PointFact[]; note: boolean }[] = [];
  const sheetWith = (rows: number) => {
    const last = rest.at(-1);
    if (last && last.verdicts.length + last.points.length + rows <= FURTHER_ROWS) return last;
    const sheet = { verdicts: [], points: [], note: false };
    rest.push(sheet);
    return sheet;
  };
  for (const verdict of verdicts.slice(first.verdicts.length)) sheetWith(1).verdicts.push(verdict);
  for (const point of points.slice(first.points.length)) sheetWith(1).points.push(point);
  if (!noteFits) sheetWith(FURTHER_ROWS / 2).note = true;
  return [first, ...rest.map((sheet) => ({ ...sheet, first: false }))];
}
