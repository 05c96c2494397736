import { useMemo, useState } from "react";
import { sizeText } from "../../fabrication/sheets/barText.ts";
import { type CutList, type CutSetting, cutListOf, USUAL_CUT } from "../../fabrication/sheets/cutList.ts";
import { cutListCsv } from "../../fabrication/sheets/cutListCsv.ts";
import { Tick } from "../loads/RecordField.tsx";
import { SizeField } from "../parts/SizeField.tsx";
import type { Unit } from "../store/state.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { lengthNumber } from "../words/number.ts";
import { cutListWords } from "./cutListTexts.ts";
import type { PaperFormProps } from "./PaperDialog.tsx";
import { SheetButtons } from "./SheetButtons.tsx";
import { SheetSetting } from "./SheetSetting.tsx";
import { sheetFacts, sheetSetting } from "./sheetFacts.ts";
import { TubeEnds } from "./TubeEnds.tsx";

/** As tube is mostly sold: common practice, no source. */
const USUAL_STOCK_mm = 6000;

/** What is cut and counted out: the list on the page, how the tubes end, and the sheet. */
export function CutListForm({ document }: PaperFormProps) {
  const unit = useApp((state) => state.unit);
  const [cut, setCut] = useState<CutSetting>(USUAL_CUT);
  const list = useMemo(() => cutListOf(document, cut), [document, cut]);
  const title = t("paper.kinds.cutList");
  const put = (change: Partial<CutSetting>) => setCut({ ...cut, ...change });
  return (
    <>
      <Pieces list={list} unit={unit} document={document} />
      <TubeEnds document={document} />
      <details className="paper-more">
        <summary>{t("paper.cut.saw")}</summary>
        <SizeField
          label={t("paper.cut.kerf")}
          value_mm={cut.saw_mm}
          unit={unit}
          trouble={null}
          onChange={(saw_mm) => put({ saw_mm })}
        />
        <SizeField
          label={t("paper.cut.trim")}
          value_mm={cut.trim_mm}
          unit={unit}
          trouble={null}
          onChange={(trim_mm) => put({ trim_mm })}
        />
        <Tick
          label={t("paper.cut.hasStock")}
          isOn={cut.stock_mm !== null}
          onChange={(isOn) => put({ stock_mm: isOn ? USUAL_STOCK_mm : null })}
        />
        {cut.stock_mm !== null && (
          <SizeField
            label={t("paper.cut.stock")}
            value_mm={cut.stock_mm}
            unit={unit}
            trouble={cut.stock_mm > 0 ? null : t("paper.cut.noStock")}
            onChange={(stock_mm) => put({ stock_mm })}
          />
        )}
      </details>
      <SheetSetting />
      <SheetButtons
        document={document}
        title={title}
        csv={() => cutListCsv(list)}
        pdf={async (onPages) => {
          const { cutListSheet } = await import("../../fabrication/sheets/cutListSheet.ts");
          const facts = sheetFacts(document, title, { units: t(`paper.units.${unit}`), fromCar: true });
          return cutListSheet(list, cut, facts, await sheetSetting(onPages), unit, cutListWords(document));
        }}
      />
    </>
  );
}

/** What of the list is looked at before it is printed. */
function Pieces({ list, unit, document }: { list: CutList; unit: Unit } & PaperFormProps) {
  const words = cutListWords(document);
  const members = list.pieces.filter(({ what }) => what !== "frame");
  const frame = list.pieces.length - members.length;
  return (
    <>
      {members.length > 0 && (
        <div className="paper-scroll">
          <table className="paper-table">
            <thead>
              <tr>
                <th scope="col">{words.part}</th>
                <th scope="col">{words.size}</th>
                <th scope="col">{words.count}</th>
                <th scope="col">{words.eyeToEye}</th>
                <th scope="col">{words.cut}</th>
              </tr>
            </thead>
            <tbody>
              {members.map((piece) => (
                <tr key={piece.number}>
                  <th scope="row">{words.what[piece.what](piece.part)}</th>
                  <td>{sizeText(piece.size, unit, words)}</td>
                  <td>{piece.count}</td>
                  <td>{piece.eyeToEye_mm === null ? "" : lengthNumber(piece.eyeToEye_mm, unit)}</td>
                  <td>{piece.cut_mm === null ? words.notTold : lengthNumber(piece.cut_mm, unit)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      <p className="quiet">
        {t("paper.cut.frame", { count: frame })} {t("paper.cut.counts", { count: list.counts.length })}
      </p>
      {list.faults
        .filter(({ code }) => code !== "end")
        .map((fault) => {
          const name = "joint" in fault ? fault.joint : fault.part;
          return (
            <p key={fault.code + name} className="trouble-line">
              {words.fault[fault.code](name)}
            </p>
          );
        })}
    </>
  );
}
