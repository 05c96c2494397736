import { useState } from "react";
import { Choices } from "../shell/Choices.tsx";
import type { Layout } from "../shell/useLayout.ts";
import { PointsSheet } from "./PointsSheet.tsx";
import { PointTable } from "./PointTable.tsx";

const SHEETS = [
  { value: "lists", name: "Points & parts" },
  { value: "table", name: "All points, table" },
] as const;

/** Beside the view: the lists and the held point; on narrow windows the table shares their place. */
export function PointsPlaceSheet({ layout }: { layout: Layout }) {
  const [sheet, setSheet] = useState<"lists" | "table">("lists");
  if (layout === "wide") return <PointsSheet />;
  return (
    <div className="sheet-pair">
      <div className="sheet-choice">
        <Choices label="Sheet" options={SHEETS} value={sheet} onChoose={setSheet} />
      </div>
      {sheet === "lists" ? <PointsSheet /> : <PointTable />}
    </div>
  );
}
