import { t } from "../text/text.ts";
import type { Making } from "./making.ts";

/** What is being made, and what came of it. */
export function MakingLine({ making }: { making: Making }) {
  const { busy, told } = making;
  return (
    <>
      <p className="paper-told" role="status">
        {busy ? t("paper.making") : told && !told.isTrouble ? told.text : ""}
      </p>
      {told?.isTrouble && (
        <p className="trouble-line" role="alert">
          {told.text}
        </p>
      )}
    </>
  );
}
