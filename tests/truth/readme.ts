import type { Agreement } from "./agreement.ts";
import type { Comparison } from "./compared.ts";
import { type QuantityId, ROWS, type Row } from "./register.ts";

const BEGIN = "<!-- quantities: begin, written by tests/truth/table.ts -->";
const END = "<!-- quantities: end -->";
const HEAD = "| quantity | told as | outside check | test | agreement |\n| --- | --- | --- | --- | --- |";

/** Below this nobody can tell two machines' roundings apart. */
const LEAST = 1e-10;
/** Of the deviation, so that another machine's rounding does not change the decade. */
const HEADROOM = 3;
/** A printed decade so far above what a run reaches is out of date. */
const STALE = 1e4;

export type Reached = ReadonlyMap<QuantityId, Agreement>;

/** "1e-9 mm": the decade above the deviation; "the same" of what has no amount. */
export function agreementText({ unit }: Pick<Row, "unit">, { off }: Pick<Agreement, "off">): string {
  if (unit === null) return "the same";
  const decade = off * HEADROOM <= LEAST ? -10 : Math.ceil(Math.log10(off * HEADROOM));
  return `1e${decade} ${unit}`;
}

/** The table's row but for the agreement. */
export function rowStart({ name, states, beneath, against, file, test }: Row): string {
  const told =
    beneath === undefined ? states.map((state) => `\`${state}\``).join(", ") : `makes up: ${nameOf(beneath)}`;
  const cells = [name, told, against, `\`${file.replace(/^tests[/]/, "")}\`: ${test}`];
  return `| ${cells.map((cell) => cell.replaceAll("|", "\\|")).join(" | ")} |`;
}

function nameOf(id: string): string {
  const found = ROWS.find(([each]) => each === id);
  if (!found) throw new Error(`no row ${id}`);
  return found[1].name;
}

export function tableOf(reached: Reached): string {
  const lines = ROWS.map(([id, row]) => {
    const agreement = reached.get(id);
    if (!agreement) throw new Error(`no test told how far ${id} is from what holds it`);
    return `${rowStart(row)} ${agreementText(row, agreement)} |`;
  });
  return [HEAD, ...lines].join("\n");
}

/** What stands between the marks. */
export function tableIn(readme: string): string {
  const [begin, end] = [readme.indexOf(BEGIN), readme.indexOf(END)];
  if (begin < 0 || end < begin) throw new Error(`the README has no place for the table: ${BEGIN} … ${END}`);
  return readme.slice(begin + BEGIN.length, end).trim();
}

export function withTable(readme: string, table: string): string {
  tableIn(readme);
  const at = readme.indexOf(BEGIN) + BEGIN.length;
  const rest = readme.slice(readme.indexOf(END));
  return `${readme.slice(0, at)}\n\n${table}\n\n${rest}`;
}

/** What of a table is not what the register says, its agreements aside. */
export function faultsOfTable(table: string): string[] {
  const lines = table.split("\n").slice(2);
  const faults = ROWS.flatMap(([id, row], i) => {
    const line = lines[i] ?? "";
    const cell = line.slice(rowStart(row).length);
    const isSo =
      line.startsWith(rowStart(row)) && (row.unit === null ? cell === " the same |" : decadeOf(row, cell) !== null);
    return isSo ? [] : [`${id}: "${line}" in place of "${rowStart(row)} …"`];
  });
  return lines.length === ROWS.length ? faults : [...faults, `${lines.length} rows in place of ${ROWS.length}`];
}

/** Agreements of a table that a run does not bear out: worse than it says, or so much better that it is out of date. */
export function faultsOfAgreements(table: string, reached: Reached): string[] {
  const lines = table.split("\n").slice(2);
  return ROWS.flatMap(([id, row], i) => {
    const agreement = reached.get(id);
    if (!agreement) return [`${id}: no test told how far it is from what holds it`];
    if (row.unit === null) return [];
    const decade = decadeOf(row, (lines[i] ?? "").slice(rowStart(row).length));
    if (decade === null) return [`${id}: the table tells no agreement`];
    const said = 10 ** decade;
    if (agreement.off > said) return [`${id}: off by ${agreement.off} ${row.unit}, the table says ${said}`];
    return decade > -10 && agreement.off * STALE < said
      ? [`${id}: off by only ${agreement.off} ${row.unit}, the table says ${said}`]
      : [];
  });
}

/** Numbers that stand in a row, and that no call compared which was come to in the run. */
export function faultsOfComparisons(calls: readonly Comparison[], reached: Reached): string[] {
  return ROWS.flatMap(([id, { file, states }]) => {
    const lines = reached.get(id)?.lines ?? [];
    const made = calls.filter(
      (call) => call.file === file && call.quantities.includes(id) && lines.includes(call.line),
    );
    const compared = new Set([id as string, ...made.flatMap(({ compares }) => [...compares])]);
    return states.filter((state) => !compared.has(state)).map((state) => `${id}: ${state} was compared by no test`);
  });
}

function decadeOf({ unit }: Row, cell: string): number | null {
  const found = /^ 1e([+-]?\d+) (.+) \|$/.exec(cell);
  return found && found[2] === unit ? Number(found[1]) : null;
}

/** Agreements by quantity, from the report that vitest writes as JSON: the farthest off of all tests in the row's file. */
export function reachedIn(report: Report): Reached {
  const fileOf = new Map(ROWS.map(([id, { file }]) => [id, file]));
  const reached = new Map<QuantityId, Agreement>();
  for (const { name, assertionResults } of report.testResults) {
    for (const { meta } of assertionResults) {
      for (const [id, { off, count, lines }] of Object.entries(meta?.agreements ?? {}) as [QuantityId, Agreement][]) {
        if (!name.replaceAll("\\", "/").endsWith(fileOf.get(id) ?? "?")) continue;
        const before = reached.get(id) ?? { off: 0, count: 0, lines: [] };
        reached.set(id, {
          off: Math.max(before.off, off),
          count: before.count + count,
          lines: [...before.lines, ...lines],
        });
      }
    }
  }
  return reached;
}

export interface Report {
  readonly testResults: readonly {
    readonly name: string;
    readonly assertionResults: readonly {
      readonly meta?: { readonly agreements?: Partial<Record<QuantityId, Agreement>> };
    }[];
  }[];
}
