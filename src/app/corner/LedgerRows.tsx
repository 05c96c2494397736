import { useEffect, useRef, useState } from "react";
import { useApp } from "../store/useApp.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { LimitRowView } from "./LimitRowView.tsx";
import { isPairRow, type LedgerRow, type RowKind } from "./ledgerRows.ts";
import { NothingTouches } from "./NothingTouches.tsx";
import { PairRowView } from "./PairRowView.tsx";

interface LedgerRowsProps {
  readonly rows: readonly LedgerRow[] | null;
  readonly only: RowKind | null;
  readonly stale: boolean;
}

/** The rows; those that are clear or left out stay folded until they are asked for. */
export function LedgerRows({ rows, only, stale }: LedgerRowsProps) {
  const [unfolded, setUnfolded] = useState(false);
  const list = useRef<HTMLDivElement>(null);
  const chosen = useApp((state) => state.chosenPair);
  useEffect(() => {
    if (chosen === null) return;
    list.current?.querySelector('[data-chosen="true"]')?.scrollIntoView?.({ block: "nearest" });
  }, [chosen]);
  if (!rows) return <div className="ledger-rows" aria-busy="true" />;
  const isFolded = (row: LedgerRow): boolean => row.kind === "clear" || row.kind === "accepted";
  const wanted = only ? rows.filter(({ kind }) => kind === only) : rows.filter((row) => !isFolded(row));
  const folded = only ? [] : rows.filter(isFolded);
  const hasLeftOut = folded.some(({ kind }) => kind === "accepted");
  const touching = rows.some(({ kind }) => kind === "clash" || kind === "limit");
  return (
    <div className={stale ? "ledger-rows stale" : "ledger-rows"} ref={list}>
      {!touching && only === null && <NothingTouches rows={rows} />}
      {wanted.map(row)}
      {folded.length > 0 && (
        <button type="button" className="fold" aria-expanded={unfolded} onClick={() => setUnfolded(!unfolded)}>
          <Rich
            text={t(`corner.ledger.fold.${hasLeftOut ? "leftOut" : "clear"}.${unfolded ? "hide" : "show"}`, {
              rows: folded.length,
            })}
          />
        </button>
      )}
      {unfolded && folded.map(row)}
    </div>
  );
}

function row(each: LedgerRow) {
  return isPairRow(each) ? <PairRowView key={each.key} row={each} /> : <LimitRowView key={each.key} row={each} />;
}
