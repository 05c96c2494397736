import { useState } from "react";
import { Choices } from "../shell/Choices.tsx";
import type { Layout } from "../shell/useLayout.ts";
import { t } from "../text/text.ts";
import { PointsSheet } from "./PointsSheet.tsx";
import { PointTable } from "./PointTable.tsx";
import { usePointsLook } from "./pointsStore.ts";

const SHEETS = (["lists", "table"] as const).map((value) => ({ value, name: t(`points.sheets.${value}`) }));

/** Beside the view: the lists and the held point; on narrow windows the table shares their place. */
export function PointsPlaceSheet({ layout }: { layout: Layout }) {
  const [sheet, setSheet] = useState<"lists" | "table">(() => (usePointsLook.getState().tableOpen ? "table" : "lists"));
  if (layout === "wide") return <PointsSheet />;
  return (
    <div className="sheet-pair">
      <div className="sheet-choice">
        <Choices label={t("points.sheet")} options={SHEETS} value={sheet} onChoose={setSheet} />
      </div>
      {sheet === "lists" ? <PointsSheet /> : <PointTable />}
    </div>
  );
}
