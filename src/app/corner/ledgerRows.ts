import type { CheckResult, LimitVerdict, PairVerdict, Verdict } from "../../check/result.ts";
import { pairKey } from "../store/state.ts";

/** What a ledger row is counted as. */
export type RowKind = Verdict | "limit";

export interface PairRow {
  readonly kind: Verdict;
  readonly key: string;
  readonly pair: PairVerdict;
  /** The same two parts on the other side with the same verdict, told in the same row; it is no worse. */
  readonly twin: PairVerdict | null;
}

export interface LimitRow {
  /** A limit that holds is counted as clear. */
  readonly kind: "limit" | "clear";
  readonly key: string;
  readonly limit: LimitVerdict;
  /** The other side's, told in the same row; it is no worse. */
  readonly twin: LimitVerdict | null;
}

export type LedgerRow = PairRow | LimitRow;

const RANK: Readonly<Record<RowKind, number>> = { clash: 0, limit: 1, tight: 2, clear: 3, accepted: 4 };

/** The result as the ledger lists it: worst first, left and right of one pair in one row where their verdict is the same. */
export function ledgerRows(result: Pick<CheckResult, "pairs" | "limits">): readonly LedgerRow[] {
  let rows = listed.get(result);
  if (!rows) {
    const all: LedgerRow[] = [...pairRows(result.pairs), ...limitRows(result.limits)];
    rows = all.sort((a, b) => RANK[a.kind] - RANK[b.kind] || clearanceOf(a) - clearanceOf(b));
    listed.set(result, rows);
  }
  return rows;
}

/** Several places of the screen list and count the same result. */
const listed = new WeakMap<Pick<CheckResult, "pairs" | "limits">, readonly LedgerRow[]>();

export function tallies(rows: readonly LedgerRow[]): Record<RowKind, number> {
  const counts = { clash: 0, limit: 0, tight: 0, clear: 0, accepted: 0 };
  for (const { kind } of rows) counts[kind]++;
  return counts;
}

export function isPairRow(row: LedgerRow): row is PairRow {
  return "pair" in row;
}

function pairRows(pairs: readonly PairVerdict[]): PairRow[] {
  const rows = new Map<string, PairRow>();
  for (const pair of pairs) {
    const shared = `${pair.a}/${pair.b}/${pair.verdict}`;
    const other = pair.side === "both" ? undefined : rows.get(shared)?.pair;
    const [worse, better] = other && other.clearance_mm <= pair.clearance_mm ? [other, pair] : [pair, other ?? null];
    rows.set(pair.side === "both" ? `both/${shared}` : shared, {
      kind: worse.verdict,
      key: pairKey(worse),
      pair: worse,
      twin: better,
    });
  }
  return [...rows.values()];
}

function limitRows(limits: readonly LimitVerdict[]): LimitRow[] {
  const rows = new Map<string, LimitRow>();
  for (const limit of limits) {
    // shortest and longest of one length are two limits
    const end = limit.value > limit.limit ? "over" : "under";
    const shared = `${limit.what}/${limit.joint ?? ""}/${limit.limit}/${limit.verdict}/${end}`;
    const other = rows.get(shared)?.limit;
    const past = ({ value, limit: end_mm }: LimitVerdict): number => Math.abs(value - end_mm);
    const otherIsWorse = other && (limit.verdict === "clash" ? past(other) >= past(limit) : past(other) <= past(limit));
    const [worse, better] = otherIsWorse ? [other, limit] : [limit, other ?? null];
    rows.set(shared, { kind: worse.verdict === "clash" ? "limit" : "clear", key: shared, limit: worse, twin: better });
  }
  return [...rows.values()];
}

/** Limits that hold come after the pairs that clear. */
function clearanceOf(row: LedgerRow): number {
  return isPairRow(row) ? row.pair.clearance_mm : row.limit.what === "binds" ? Number.MIN_SAFE_INTEGER : 1e6;
}
