import "./ledger.css";
import { useState } from "react";
import { useApp } from "../store/useApp.ts";
import { LedgerFoot } from "./LedgerFoot.tsx";
import { LedgerRows } from "./LedgerRows.tsx";
import { type RowKind, tallies } from "./ledgerRows.ts";
import { Tallies } from "./Tallies.tsx";
import { useRows } from "./useRows.ts";

/** What touches, what is tight and what is clear, as sentences, worst first. */
export function Ledger() {
  const rows = useRows();
  const [only, setOnly] = useState<RowKind | null>(null);
  const stale = useApp((state) => state.stale);
  const error = useApp((state) => state.error);
  const sides = useApp((state) => state.scene?.sides) ?? [];
  const whose = sides.length === 1 ? `${sides[0]} side` : "both sides";
  const counts = rows && tallies(rows);
  const shownKind = only && counts && counts[only] > 0 ? only : null;
  return (
    <section className="ledger" aria-label="Verdicts">
      <header className="ledger-head">
        <h2>
          Verdicts <small>{stale && rows ? "before your change" : `worst first, ${whose}`}</small>
        </h2>
        {counts && <Tallies counts={counts} only={shownKind} stale={stale} onOnly={setOnly} />}
        {error && (
          <p className="trouble-line" role="alert">
            <b>Not checked:</b> {error.message}
          </p>
        )}
      </header>
      <LedgerRows rows={rows} only={shownKind} stale={stale} />
      <LedgerFoot />
    </section>
  );
}
