import type { SceneDocument } from "../../scene/document.ts";
import { stillMissing } from "../../scene/setup/setup.ts";
import { isPairRow, tallies } from "../corner/ledgerRows.ts";
import { SentenceText } from "../corner/SentenceText.tsx";
import { Tallies } from "../corner/Tallies.tsx";
import { useRows } from "../corner/useRows.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { pairSentence } from "../words/sentences.ts";
import { answerName } from "./questionText.ts";

/** What is missing before the corner can be worked out; after that its verdicts so far. */
export function SetupStanding({ document }: { document: SceneDocument }) {
  const missing = stillMissing(document);
  if (missing.length > 0) {
    return <p className="setup-standing quiet">{missingText(missing.map(answerName))}</p>;
  }
  return <Verdicts />;
}

function Verdicts() {
  const rows = useRows();
  const error = useApp((state) => state.error);
  const stale = useApp((state) => state.stale);
  const partial = useApp((state) => state.partial);
  const scene = useApp((state) => state.scene);
  const unit = useApp((state) => state.unit);
  if (error) {
    return (
      <p className="setup-standing trouble-line" role="alert">
        {error.message}
      </p>
    );
  }
  if (!rows) return <p className="setup-standing quiet">{t("setup.checking")}</p>;
  const worst = rows[0];
  return (
    <div className="setup-standing">
      <Tallies counts={tallies(rows)} only={null} stale={stale} partial={partial} onOnly={showVerdicts} />
      {worst && isPairRow(worst) && (worst.kind === "clash" || worst.kind === "tight") && (
        <p>
          <SentenceText sentence={pairSentence(worst.pair, scene, unit)} kind={worst.kind} />
        </p>
      )}
      <button type="button" className="button" onClick={showVerdicts}>
        {t("setup.seeVerdicts")}
      </button>
    </div>
  );
}

function showVerdicts(): void {
  app.getState().setPlace("corner");
}

const MOST_MISSING = 4;

function missingText(names: readonly string[]): string {
  const answers = names.slice(0, MOST_MISSING).join("; ");
  const number = names.length - MOST_MISSING;
  return number > 0 ? t("setup.missingMore", { answers, number }) : t("setup.missing", { answers });
}
