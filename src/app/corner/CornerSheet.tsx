import { useState } from "react";
import { CurveDrawer } from "../curves/CurveDrawer.tsx";
import { Choices } from "../shell/Choices.tsx";
import type { Layout } from "../shell/useLayout.ts";
import { Ledger } from "./Ledger.tsx";

const SHEETS = [
  { value: "verdicts", name: "Verdicts" },
  { value: "curves", name: "Curves" },
] as const;

/** Beside the view: the ledger; on narrow windows the curves share its place. */
export function CornerSheet({ layout }: { layout: Layout }) {
  const [sheet, setSheet] = useState<"verdicts" | "curves">("verdicts");
  if (layout === "wide") return <Ledger />;
  const choice = <Choices label="Sheet" options={SHEETS} value={sheet} onChoose={setSheet} />;
  return sheet === "verdicts" ? <Ledger lead={choice} /> : <CurveDrawer lead={choice} />;
}
