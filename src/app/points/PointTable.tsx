import type { ReactNode } from "react";
import { Choices } from "../shell/Choices.tsx";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { DatumChooser } from "./DatumChooser.tsx";
import { MEANINGS } from "./MeaningChooser.tsx";
import { PointTableRow } from "./PointTableRow.tsx";
import { type PointInfo, pointInfos } from "./pointInfo.ts";
import { usePointsLook } from "./pointsStore.ts";
import { TriedElsewhere } from "./TriedElsewhere.tsx";
import { DIRECTIONS, datumOf } from "./usePointMove.ts";
import "./pointTable.css";

/**
 * All hard points in one table, each number editable where it stands. Enter keeps, Escape puts back, ↑ and ↓ go from row
 * to row.
 */
export function PointTable({ children }: { children?: ReactNode }) {
  const document = useApp((state) => state.document);
  const scene = useApp((state) => state.scene);
  const unit = useApp((state) => state.unit);
  const tried = useApp((state) => state.tried?.point ?? null);
  const held = useApp((state) => state.heldPoint);
  const datumId = usePointsLook((look) => look.datumId);
  const meaning = usePointsLook((look) => look.meaning);
  if (!document) return null;
  const infos: readonly PointInfo[] = pointInfos(document);
  return (
    <section className="point-table" aria-label={t("points.table.label")}>
      <div className="point-table-head">
        <h3>{t("points.table.title", { unit })}</h3>
        <Choices
          label={t("points.meaning.inTable")}
          options={MEANINGS}
          value={meaning ?? "cut"}
          onChoose={(chosen) => usePointsLook.setState({ meaning: chosen })}
        />
        <DatumChooser />
        {children}
      </div>
      {tried && tried !== held && <TriedElsewhere />}
      <div className="point-table-scroll">
        <table onKeyDown={stepRow}>
          <thead>
            <tr>
              <th scope="col">{t("points.table.point")}</th>
              {DIRECTIONS.map((direction) => (
                <th key={direction} scope="col">
                  {t(`points.columns.${direction}`)}
                </th>
              ))}
              <th scope="col">{t("points.table.tolerance")}</th>
              <th scope="col">{t("points.table.how")}</th>
            </tr>
          </thead>
          <tbody>
            {infos.map((info) => (
              <PointTableRow key={info.name} info={info} datum={datumOf(scene, datumId)} unit={unit} />
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

/** ↑ and ↓ go to the same column of the next row. */
function stepRow(event: React.KeyboardEvent<HTMLTableElement>): void {
  if (event.key !== "ArrowUp" && event.key !== "ArrowDown") return;
  const field = event.target;
  if (!(field instanceof HTMLInputElement)) return;
  const column = field.dataset.column;
  const fields = [...event.currentTarget.querySelectorAll<HTMLInputElement>(`input[data-column="${column}"]`)];
  const next = fields[fields.indexOf(field) + (event.key === "ArrowDown" ? 1 : -1)];
  if (!next) return;
  event.preventDefault();
  next.focus();
  next.select();
}
