import { boxAround, type Flat, polygonOf, type Stroke } from "../../fabrication/templates/drawing.ts";
import type { TemplatePart } from "../../fabrication/templates/templates.ts";

const SAG_mm = 0.1;
const SIDE = 84;
const EDGE = 3;

/** The template small: what is cut, and where it folds. */
export function TemplatePreview({ part, label }: { part: TemplatePart; label: string }) {
  const cut = part.kind === "plate" ? [part.outline, ...part.holes].map(cornersOf) : [[...part.cut, ...edgeOf(part)]];
  const folds = part.kind === "plate" ? part.folds : [];
  const { min, max } = boxAround(cut.flat());
  const scale = (SIDE - 2 * EDGE) / Math.max(max[0] - min[0], max[1] - min[1]);
  const [left, top] = [(SIDE - (max[0] - min[0]) * scale) / 2, (SIDE - (max[1] - min[1]) * scale) / 2];
  const place = ([u, v]: Flat) =>
    `${(left + (u - min[0]) * scale).toFixed(2)} ${(top + (max[1] - v) * scale).toFixed(2)}`;
  return (
    <svg className="template-preview" viewBox={`0 0 ${SIDE} ${SIDE}`} role="img" aria-label={label}>
      <path className="template-steel" d={cut.map((ring) => `M${ring.map(place).join("L")}Z`).join("")} />
      {folds.map(({ from, to }) => (
        <path key={place(from)} className="template-fold" d={`M${place(from)}L${place(to)}`} />
      ))}
    </svg>
  );
}

function cornersOf(stroke: Stroke): Flat[] {
  if (stroke.kind === "ring") return polygonOf(stroke, SAG_mm);
  if (stroke.kind === "line") return [...stroke.points];
  const { centre, diameter_mm } = stroke;
  return Array.from({ length: 48 }, (_, i): Flat => {
    const angle = (2 * Math.PI * i) / 48;
    return [centre[0] + (diameter_mm / 2) * Math.cos(angle), centre[1] + (diameter_mm / 2) * Math.sin(angle)];
  });
}

function edgeOf({ diameter_mm, edge_mm }: Extract<TemplatePart, { kind: "wrap" }>): Flat[] {
  return [
    [Math.PI * diameter_mm, edge_mm],
    [0, edge_mm],
  ];
}
