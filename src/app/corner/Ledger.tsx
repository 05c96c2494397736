import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import "./ledger.css";
import { type ReactNode, useState } from "react";
import { stillMissing } from "../../scene/setup/setup.ts";
import { useApp } from "../store/useApp.ts";
import { nameOf } from "../words/names.ts";
import { CheckLine, LedgerFoot } from "./LedgerFoot.tsx";
import { LedgerRows } from "./LedgerRows.tsx";
import { type RowKind, tallies } from "./ledgerRows.ts";
import { Tallies } from "./Tallies.tsx";
import { useRows } from "./useRows.ts";

/** What touches, what is tight and what is clear, as sentences, worst first. Narrow windows put `lead` in the title's place. */
export function Ledger({ lead }: { lead?: ReactNode }) {
  const rows = useRows();
  const [only, setOnly] = useState<RowKind | null>(null);
  const stale = useApp((state) => state.stale);
  const partial = useApp((state) => state.partial);
  const counts = rows && tallies(rows);
  const note = rows && (stale ? t("corner.ledger.beforeChange") : partial ? t("corner.ledger.soFar") : null);
  const shownKind = only && counts && counts[only] > 0 ? only : null;
  return (
    <section className={lead ? "ledger narrow" : "ledger"} aria-label={t("corner.ledger.name")}>
      <header className="ledger-head">
        {lead ?? <LedgerTitle note={note} />}
        {counts && <Tallies counts={counts} only={shownKind} stale={stale} partial={partial} onOnly={setOnly} />}
        {lead && note && <p className="stale-line">{note}</p>}
        <NotChecked />
      </header>
      <LedgerRows rows={rows} only={shownKind} stale={stale} />
      {lead ? <CheckLine quiet /> : <LedgerFoot />}
    </section>
  );
}

function LedgerTitle({ note }: { note: string | null }) {
  const sides = useApp((state) => state.scene?.sides) ?? [];
  const whose = sides.length === 1 ? sides[0]! : "both";
  return (
    <h2>
      {t("corner.ledger.name")} <small>{note ?? t(`corner.ledger.order.${whose}`)}</small>
    </h2>
  );
}

/** Why what is shown was not checked, where its verdicts would stand. */
function NotChecked() {
  const error = useApp((state) => state.error);
  const missing = useApp((state) => state.document?.setup && stillMissing(state.document).length > 0);
  const unchecked = useApp((state) => state.result?.unchecked);
  const scene = useApp((state) => state.scene);
  if (missing && !error) return <p className="stale-line">{t("setup.unfinished")}</p>;
  if (!error) {
    return unchecked?.map(({ id, file, wrong, wanted }) => (
      <p key={id} className="trouble-line" role="alert">
        <Rich text={t("corner.ledger.unchecked", { part: nameOf(id, scene), file, wrong, wanted })} />
      </p>
    ));
  }
  return (
    <p className="trouble-line" role="alert">
      <Rich text={t("corner.ledger.notChecked", { why: error.message })} />
    </p>
  );
}
