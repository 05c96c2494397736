import { useState } from "react";
import { CurveDrawer } from "../curves/CurveDrawer.tsx";
import { GearSheet } from "../gear/GearPanel.tsx";
import { LoadsSheet } from "../loads/LoadsPanel.tsx";
import { Choices } from "../shell/Choices.tsx";
import type { Layout } from "../shell/useLayout.ts";
import { t } from "../text/text.ts";
import { useTools } from "../tools/toolsStore.ts";
import { Ledger } from "./Ledger.tsx";

const SHEETS = (["verdicts", "curves"] as const).map((value) => ({ value, name: t(`corner.sheets.${value}`) }));

/** Beside the view: the ledger, or the loads or the running gear while they are open; on narrow windows the curves share its place. */
export function CornerSheet({ layout }: { layout: Layout }) {
  const [sheet, setSheet] = useState<"verdicts" | "curves">("verdicts");
  const tool = useTools(({ open }) => open);
  if (tool === "loads") return <LoadsSheet layout={layout} />;
  if (tool === "gear") return <GearSheet layout={layout} />;
  if (layout === "wide") return <Ledger />;
  const choice = <Choices label={t("corner.sheet")} options={SHEETS} value={sheet} onChoose={setSheet} />;
  return sheet === "verdicts" ? <Ledger lead={choice} /> : <CurveDrawer lead={choice} />;
}
