import type { Sentence } from "../words/sentences.ts";
import type { RowKind } from "./ledgerRows.ts";

export function SentenceText({ sentence, kind }: { sentence: Sentence; kind: RowKind }) {
  return (
    <>
      {sentence.before}
      <b className="amount" data-kind={kind}>
        {sentence.strong}
      </b>
      {sentence.after}
    </>
  );
}
