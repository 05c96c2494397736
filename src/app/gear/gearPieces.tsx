import { memo, useMemo } from "react";
import type { LimitName } from "../../check/result.ts";
import type { GearReport } from "../../work/gearReport.ts";
import { LimitRowView } from "../corner/LimitRowView.tsx";
import { isPairRow, ledgerRows } from "../corner/ledgerRows.ts";
import { t } from "../text/text.ts";
import { type GearForm, openGearForm } from "./gearStore.ts";
import "../corner/ledger.css";

/** What is missing, and the way to tell it. */
export function Ask({ text, go, form }: { text: string; go: string; form: GearForm | (() => void) }) {
  return (
    <div className="gear-ask">
      <p>{text}</p>
      <button
        type="button"
        className="button"
        onClick={() => (typeof form === "function" ? form() : openGearForm(form))}
      >
        {go}
      </button>
    </div>
  );
}

interface PastProps {
  readonly report: GearReport;
  /** The limits that belong here. */
  readonly limits: readonly LimitName[];
  /** What is said where none is passed. */
  readonly clear: string;
}

/** Passed limits as the verdicts have them, worst first; pressing one shows it. */
export const Past = memo(function Past({ report, limits, clear }: PastProps) {
  const rows = useMemo(() => {
    const told = report.sides.flatMap((side) => side.limits).filter(({ what }) => limits.includes(what));
    return ledgerRows({ pairs: [], limits: told });
  }, [report, limits]);
  const past = rows.filter(({ kind }) => kind === "limit");
  if (rows.length === 0) return null;
  if (past.length === 0) return <p className="gear-clear">{clear}</p>;
  return (
    <div className="gear-past-list">
      {past.map((row) => !isPairRow(row) && <LimitRowView key={row.key} row={row} />)}
    </div>
  );
});

/** What the figures stand on. */
export function Notes({ notes }: { notes: readonly string[] }) {
  return (
    <details className="loads-how">
      <summary>{t("gear.how")}</summary>
      {notes.map((note) => (
        <p key={note} className="tool-note">
          {note}
        </p>
      ))}
    </details>
  );
}
