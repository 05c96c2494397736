import type { PaperFormProps } from "../paper/PaperDialog.tsx";
import { CurvesFields } from "./CurvesFields.tsx";
import { ModelFields } from "./ModelFields.tsx";
import { PointsFields } from "./PointsFields.tsx";
import "../picture/picture.css";
import "./exchange.css";

/** What goes out to other programs and comes back: bodies, hard points, curves. */
export function ExchangeForm({ document }: PaperFormProps) {
  return (
    <>
      <ModelFields document={document} />
      <PointsFields document={document} />
      <CurvesFields document={document} />
    </>
  );
}
