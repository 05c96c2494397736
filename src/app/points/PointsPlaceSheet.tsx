import { useState } from "react";
import { Choices } from "../shell/Choices.tsx";
import type { Layout } from "../shell/useLayout.ts";
import { StudiesSheet } from "../studies/StudiesPanel.tsx";
import { t } from "../text/text.ts";
import { useTools } from "../tools/toolsStore.ts";
import { PointsSheet } from "./PointsSheet.tsx";
import { PointTable } from "./PointTable.tsx";
import { usePointsLook } from "./pointsStore.ts";

const SHEETS = (["lists", "table"] as const).map((value) => ({ value, name: t(`points.sheets.${value}`) }));

/** Beside the view: the lists and the held point, or the studies while they are open; on narrow windows the table shares their place. */
export function PointsPlaceSheet({ layout }: { layout: Layout }) {
  const [sheet, setSheet] = useState<"lists" | "table">(() => (usePointsLook.getState().tableOpen ? "table" : "lists"));
  const isStudying = useTools(({ open }) => open === "studies");
  if (isStudying) return <StudiesSheet layout={layout} />;
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
