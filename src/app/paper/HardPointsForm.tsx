import type { HardPointWords } from "../../fabrication/sheets/hardPointSheet.ts";
import { hardPointLines, hardPointsCsv } from "../../fabrication/sheets/hardPoints.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import type { PaperFormProps } from "./PaperDialog.tsx";
import { usePaper } from "./paperStore.ts";
import { SheetButtons } from "./SheetButtons.tsx";
import { SheetSetting } from "./SheetSetting.tsx";
import { StandingChoice } from "./StandingChoice.tsx";
import { chosenDatum, sheetFacts, sheetSetting } from "./sheetFacts.ts";

/** The hard points from the chosen datum, as a printed sheet and as a table. */
export function HardPointsForm({ document }: PaperFormProps) {
  const unit = useApp((state) => state.unit);
  const standing = usePaper((look) => look.standing);
  const title = t("paper.kinds.hardPoints");
  return (
    <>
      <StandingChoice />
      {standing === "built" && !document.measured && <p className="stale-line">{t("paper.notMeasured")}</p>}
      <SheetSetting hasDatum />
      <SheetButtons
        document={document}
        title={title}
        csv={() => hardPointsCsv(hardPointLines(document, chosenDatum()))}
        pdf={async (onPages) => {
          const { hardPointSheet } = await import("../../fabrication/sheets/hardPointSheet.ts");
          const lines = hardPointLines(document, chosenDatum());
          const facts = sheetFacts(document, title, { standing, units: t(`paper.units.${unit}`) });
          return hardPointSheet(lines, facts, await sheetSetting(onPages), unit, words());
        }}
      />
    </>
  );
}

function words(): HardPointWords {
  return {
    point: t("paper.hardPoints.point"),
    ways: t("paper.hardPoints.ways"),
    drawn: t("paper.hardPoints.drawn"),
    left: t("paper.hardPoints.left"),
    right: t("paper.hardPoints.right"),
    difference: t("paper.hardPoints.difference"),
    how: t("paper.hardPoints.how"),
    within: (length) => t("paper.hardPoints.within", { length }),
    leftHow: (how) => t("paper.hardPoints.leftHow", { how }),
    rightHow: (how) => t("paper.hardPoints.rightHow", { how }),
    note: t("paper.hardPoints.note"),
  };
}
