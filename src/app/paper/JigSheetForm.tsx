import { useState } from "react";
import { jigCsv } from "../../fabrication/sheets/jigCsv.ts";
import type { JigSheetWords } from "../../fabrication/sheets/jigSheet.ts";
import { groundFrom, jigSheetData } from "../../fabrication/sheets/jigSheetData.ts";
import { Tick } from "../loads/RecordField.tsx";
import { SizeField } from "../parts/SizeField.tsx";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import type { PaperFormProps } from "./PaperDialog.tsx";
import { SheetButtons } from "./SheetButtons.tsx";
import { SheetSetting } from "./SheetSetting.tsx";
import { chosenDatum, sheetFacts, sheetSetting } from "./sheetFacts.ts";

/** A bar that fits many bushes; common practice, no source. */
const USUAL_BAR_mm = 12;

/** Heights over the jig table and lengths for a tape. */
export function JigSheetForm({ document }: PaperFormProps) {
  const unit = useApp((state) => state.unit);
  const [overGround_mm, setOverGround] = useState(0);
  const [bar_mm, setBar] = useState<number | null>(null);
  const title = t("paper.kinds.jigSheet");
  const data = () => {
    const datum = chosenDatum();
    return jigSheetData(document, datum, { table_mm: groundFrom(datum) + overGround_mm, bar_mm });
  };
  return (
    <>
      <SheetSetting hasDatum />
      <SizeField
        label={t("paper.jig.table")}
        value_mm={overGround_mm}
        unit={unit}
        trouble={null}
        onChange={setOverGround}
      />
      <Tick
        label={t("paper.jig.hasBar")}
        isOn={bar_mm !== null}
        onChange={(isOn) => setBar(isOn ? USUAL_BAR_mm : null)}
      />
      {bar_mm !== null && (
        <SizeField label={t("paper.jig.bar")} value_mm={bar_mm} unit={unit} trouble={null} onChange={setBar} />
      )}
      <SheetButtons
        document={document}
        title={title}
        csv={() => jigCsv(data())}
        pdf={async (onPages) => {
          const { jigSheet } = await import("../../fabrication/sheets/jigSheet.ts");
          const facts = sheetFacts(document, title, { units: t(`paper.units.${unit}`) });
          return jigSheet(data(), bar_mm, facts, await sheetSetting(onPages), unit, words());
        }}
      />
    </>
  );
}

function words(): JigSheetWords {
  return {
    plan: t("sheets.jig.plan"),
    planScale: (scale) => t("sheets.jig.planScale", { scale }),
    forward: t("sheets.jig.forward"),
    centreLine: t("sheets.jig.centreLine"),
    axleLine: t("sheets.jig.axleLine"),
    heights: t("sheets.jig.heights"),
    number: t("sheets.jig.number"),
    mount: t("sheets.jig.mount"),
    forwardOf: t("sheets.jig.forwardOf"),
    out: t("sheets.jig.out"),
    height: t("sheets.jig.height"),
    under: (bar) => t("sheets.jig.under", { bar }),
    within: t("sheets.jig.within"),
    onCar: t("sheets.jig.onCar"),
    across: t("sheets.jig.across"),
    diagonals: t("sheets.jig.diagonals"),
    diagonalsNote: t("sheets.jig.diagonalsNote"),
    alongside: t("sheets.jig.alongside"),
    alongsideNote: t("sheets.jig.alongsideNote"),
    from: t("sheets.jig.from"),
    to: t("sheets.jig.to"),
    straight: t("sheets.jig.straight"),
    onTable: t("sheets.jig.onTable"),
    side: {
      left: (point) => t("sheets.jig.left", { point }),
      right: (point) => t("sheets.jig.right", { point }),
    },
    notes: [t("sheets.jig.noteTape"), t("sheets.jig.noteWhole"), t("sheets.jig.noteWithin")],
  };
}
