import { xmlText } from "../xmlText.ts";
import {
  arcOf,
  boxOf,
  type Drawing,
  type Flat,
  LAYERS,
  type Layer,
  type Stroke,
  type Words,
  withoutNotes,
} from "./drawing.ts";
import type { FileOptions } from "./writeDxf.ts";

/** Hairlines as cutters take them from SVG, black for cuts; by common practice, no source. */
const LOOKS: Readonly<Record<Layer, string>> = {
  cut: 'stroke="#000000" stroke-width="0.2"',
  fold: 'stroke="#0000ff" stroke-width="0.2" stroke-dasharray="6 2 1 2"',
  etch: 'stroke="#008000" stroke-width="0.2"',
  note: 'stroke="#808080" stroke-width="0.15"',
};
const MARGIN_mm = 5;

/** SVG 1.1 at full size, one user unit a millimetre, one group a layer. */
export function svgOf(whole: Drawing, { withoutNotes: bare = false }: FileOptions = {}): string {
  const drawing = bare ? withoutNotes(whole) : whole;
  const { min, max } = boxOf(drawing);
  const [width, height] = [max[0] - min[0] + 2 * MARGIN_mm, max[1] - min[1] + 2 * MARGIN_mm];
  // v grows upwards, SVG downwards
  const place = ([u, v]: Flat): string => `${num(u - min[0] + MARGIN_mm)} ${num(max[1] - v + MARGIN_mm)}`;
  const groups = LAYERS.filter((layer) => !(bare && layer === "note")).map((layer) => {
    const strokes = drawing.strokes[layer].map((stroke) => `<path d="${pathOf(stroke, place)}"/>`);
    const words = layer === "etch" || layer === "note" ? drawing.words[layer].map((each) => textOf(each, place)) : [];
    return `<g id="${layer}" fill="none" ${LOOKS[layer]}>${[...strokes, ...words].join("")}</g>`;
  });
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${num(width)}mm" height="${num(height)}mm" viewBox="0 0 ${num(width)} ${num(height)}">`,
    ...groups,
    "</svg>",
    "",
  ].join("\n");
}

function pathOf(stroke: Stroke, place: (at: Flat) => string): string {
  if (stroke.kind === "line") return `M${stroke.points.map(place).join("L")}`;
  if (stroke.kind === "circle") {
    const { centre, diameter_mm } = stroke;
    const r = diameter_mm / 2;
    const half = (to: Flat) => `A${num(r)} ${num(r)} 0 0 0 ${place(to)}`;
    const [left, right]: [Flat, Flat] = [
      [centre[0] - r, centre[1]],
      [centre[0] + r, centre[1]],
    ];
    return `M${place(left)}${half(right)}${half(left)}Z`;
  }
  const { corners } = stroke;
  const sides = corners.map(({ at, bulge }, i) => {
    const to = corners[(i + 1) % corners.length]!.at;
    if (bulge === 0) return `L${place(to)}`;
    const { radius_mm, angle } = arcOf(at, to, bulge);
    return `A${num(radius_mm)} ${num(radius_mm)} 0 ${Math.abs(angle) > Math.PI ? 1 : 0} ${bulge > 0 ? 0 : 1} ${place(to)}`;
  });
  return `M${place(corners[0]!.at)}${sides.join("")}Z`;
}

function textOf({ at, height_mm, turn_deg, text }: Words, place: (at: Flat) => string): string {
  const [x, y] = place(at).split(" ");
  const turn = turn_deg === 0 ? "" : ` transform="rotate(${-turn_deg} ${x} ${y})"`;
  return `<text x="${x}" y="${y}"${turn} font-family="sans-serif" font-size="${num(height_mm * 1.35)}" fill="#000000" stroke="none">${xmlText(text)}</text>`;
}

function num(mm: number): string {
  return String(Math.round(mm * 1e4) / 1e4 + 0);
}
