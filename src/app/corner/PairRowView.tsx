import { GapMark } from "../marks/GapMark.tsx";
import { Spark } from "../marks/Spark.tsx";
import { readingsOf } from "../rule/bands.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { pairCircumstance, pairSentence } from "../words/sentences.ts";
import type { PairRow } from "./ledgerRows.ts";
import { PairDetails } from "./PairDetails.tsx";
import { SentenceText } from "./SentenceText.tsx";

/** A pair's verdict as a row: mark, sentence, circumstance and spark; the chosen one opens. */
export function PairRowView({ row }: { row: PairRow }) {
  const { pair, twin, kind, key } = row;
  const scene = useApp((state) => state.scene);
  const unit = useApp((state) => state.unit);
  const chosen = useApp((state) => state.chosenPair === key);
  const travel_mm = useApp((state) => state.travel_mm[pair.side === "right" ? "right" : "left"]);
  const reach_mm = [-(scene?.travel.droop_mm ?? 0), scene?.travel.bump_mm ?? 0] as const;
  return (
    <div className="row" data-kind={kind} data-chosen={chosen}>
      <button
        type="button"
        className="row-press"
        aria-expanded={chosen}
        onClick={() => app.getState().choosePair(chosen ? null : key)}
      >
        <GapMark kind={kind} size={26} />
        <span className="row-words">
          <span className="row-sentence">
            <SentenceText sentence={pairSentence(pair, scene, unit)} kind={kind} />
          </span>
          <span className="row-circumstance">
            {pair.why ? t("corner.ledger.leftOut", { why: pair.why }) : pairCircumstance(pair, twin, unit)}
          </span>
        </span>
        <Spark readings={readingsOf(pair)} required_mm={pair.required_mm} reach_mm={reach_mm} travel_mm={travel_mm} />
      </button>
      {chosen && <PairDetails row={row} />}
    </div>
  );
}
