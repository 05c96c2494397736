import { GapMark } from "../marks/GapMark.tsx";
import { useApp } from "../store/useApp.ts";
import { limitCircumstance, limitSentence } from "../words/sentences.ts";
import type { LimitRow } from "./ledgerRows.ts";
import { SentenceText } from "./SentenceText.tsx";
import { showState } from "./showState.ts";

/** A limit of shaft, damper, stop or joint as a row; pressing it shows where it is worst. */
export function LimitRowView({ row: { limit, twin, kind } }: { row: LimitRow }) {
  const scene = useApp((state) => state.scene);
  const unit = useApp((state) => state.unit);
  return (
    <div className="row" data-kind={kind}>
      <button
        type="button"
        className="row-press"
        onClick={() => showState(limit.side, limit.at.travel_mm, limit.at.pose, limit.at.share)}
      >
        <GapMark kind={kind} size={26} />
        <span className="row-words">
          <span className="row-sentence">
            <SentenceText sentence={limitSentence(limit, scene, unit)} kind={kind} />
          </span>
          <span className="row-circumstance">{limitCircumstance(limit, twin, scene, unit)}</span>
        </span>
      </button>
    </div>
  );
}
