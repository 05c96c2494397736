import { CurveDrawer } from "../curves/CurveDrawer.tsx";
import { GearSheet } from "../gear/GearPanel.tsx";
import { LoadsSheet } from "../loads/LoadsPanel.tsx";
import { Choices } from "../shell/Choices.tsx";
import type { Layout } from "../shell/useLayout.ts";
import { StudiesSheet } from "../studies/StudiesPanel.tsx";
import { t } from "../text/text.ts";
import { useTools } from "../tools/toolsStore.ts";
import { Ledger } from "./Ledger.tsx";
import { useCornerSheet } from "./sheetStore.ts";

const SHEETS = (["verdicts", "curves"] as const).map((value) => ({ value, name: t(`corner.sheets.${value}`) }));

/** Beside the view: the ledger, or the loads, the running gear or the studies while they are open; on narrow windows the curves share its place. */
export function CornerSheet({ layout }: { layout: Layout }) {
  const sheet = useCornerSheet((state) => state.sheet);
  const tool = useTools(({ open }) => open);
  if (tool === "loads") return <LoadsSheet layout={layout} />;
  if (tool === "gear") return <GearSheet layout={layout} />;
  if (tool === "studies") return <StudiesSheet layout={layout} />;
  if (layout === "wide") return <Ledger />;
  const choice = (
    <Choices
      label={t("corner.sheet")}
      options={SHEETS}
      value={sheet}
      onChoose={(chosen) => useCornerSheet.setState({ sheet: chosen })}
    />
  );
  return sheet === "verdicts" ? <Ledger lead={choice} /> : <CurveDrawer lead={choice} />;
}
