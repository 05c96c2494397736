import { type LengthUnit, MM_PER_INCH } from "../../scene/length.ts";
import { CLASH, DOTS_mm, FAINT, HATCH_mm, hexOf, INK, TIGHT, TONES, type Tone } from "./colours.ts";
import { cutTo, fixed, linesOf, textAt, widthOf } from "./lettering.ts";
import { line } from "./marks.ts";
import { barLength } from "./page.ts";
import { filled, type PictureWords } from "./words.ts";

/** What the legend explains: only what the picture has. */
export interface PictureLegend {
  readonly tones: readonly Tone[];
  readonly hasOutlined: boolean;
  readonly hasClash: boolean;
  readonly hasTight: boolean;
}

export interface SheetFacts {
  /** The car's millimetres for one of the paper's; null: not to scale. */
  readonly ratio: number | null;
  readonly dpi: number;
  readonly legend: PictureLegend;
}

export const MARGIN_mm = 6;
const SMALL = 2.6;
const INK_HEX = hexOf(INK);
const QUIET = "#465254";

export interface Furniture {
  readonly svg: string;
  /** Where it ends, or begins. */
  readonly y: number;
}

export function drawHead(words: PictureWords, width: number): Furniture {
  const right = width - MARGIN_mm;
  const inner = width - 2 * MARGIN_mm;
  const { title, date, standing, view, state, note } = words;
  const isWide = width > 150;
  const room = inner - Math.max(widthOf(date, 3), widthOf(standing, 3)) - 4;
  const below = isWide ? room : inner;
  let y = MARGIN_mm + 5;
  const parts = [
    textAt(MARGIN_mm, y, cutTo(title, 5, room), { size: 5, isStrong: true }),
    textAt(right, y - 1, date, { size: 3, anchor: "end", isStrong: true }),
    textAt(right, y + 3.4, standing, { size: 3, anchor: "end" }),
  ];
  y += isWide ? 5 : 8.4;
  for (const text of [...linesOf(`${view} · ${state}`, 3, below), ...(note === null ? [] : linesOf(note, 3, below))]) {
    parts.push(textAt(MARGIN_mm, y, text, { size: 3, colour: QUIET }));
    y += 4;
  }
  y -= 2;
  parts.push(
    line(
      [
        { x: MARGIN_mm, y },
        { x: right, y },
      ],
      { colour: INK_HEX, width: 0.5 },
    ),
  );
  return { svg: parts.join(""), y: y + 2 };
}

/** Legend, scale bar, units, datum and cautions, from the bottom of the sheet up. */
export function drawFoot(facts: SheetFacts, words: PictureWords, width: number, height: number): Furniture {
  const inner = width - 2 * MARGIN_mm;
  const right = width - MARGIN_mm;
  const cautions = words.cautions.flatMap((text) => linesOf(text, SMALL, inner));
  let y = height - MARGIN_mm - (cautions.length - 1) * SMALL * 1.35;
  const parts = cautions.map((text, i) => textAt(MARGIN_mm, y + i * SMALL * 1.35, text, { size: SMALL }));
  y -= SMALL + 1.6;
  parts.push(
    line(
      [
        { x: MARGIN_mm, y },
        { x: right, y },
      ],
      { colour: "#c5cfcd", width: 0.25 },
    ),
  );
  y -= 2;
  const legend = legendRows(facts.legend, words, inner);
  for (const row of [...legend].reverse()) {
    parts.push(row.map((entry) => entry.draw(MARGIN_mm + entry.x, y)).join(""));
    y -= 5.4;
  }
  y -= 1;
  const { ratio, dpi } = facts;
  const scale = ratio === null ? words.notToScale : filled(words.scale, { ratio, dpi });
  for (const text of linesOf(`${scale} · ${words.units} · ${words.datum}`, SMALL, inner).reverse()) {
    parts.push(textAt(MARGIN_mm, y, text, { size: SMALL }));
    y -= 4;
  }
  if (ratio !== null) {
    y -= 0.6;
    parts.push(scaleBar(ratio, words.unit, MARGIN_mm + 1, y, inner));
    y -= 7;
  }
  return { svg: parts.join(""), y };
}

const BAR_mm = 1.6;

/** A bar of two colours, numbered from 0; its length is the car's by the picture's scale. */
function scaleBar(ratio: number, unit: LengthUnit, x: number, y: number, room: number): string {
  const perUnit = unit === "mm" ? 1 : MM_PER_INCH;
  const total = barLength((Math.min(110, room * 0.6) * ratio) / perUnit);
  const steps = String(total).startsWith("2") ? 4 : 5;
  const width = (total * perUnit) / ratio;
  const parts: string[] = [];
  for (let i = 0; i < steps; i++) {
    const from = x + (width * i) / steps;
    const fill = i % 2 === 0 ? INK_HEX : "#ffffff";
    parts.push(
      `<rect x="${fixed(from)}" y="${fixed(y - BAR_mm)}" width="${fixed(width / steps)}" height="${BAR_mm}" fill="${fill}" stroke="${INK_HEX}" stroke-width="0.2"/>`,
    );
  }
  for (let i = 0; i <= steps; i++) {
    const value = (total * i) / steps;
    const label = String(Math.round(value * 1000) / 1000);
    const text = i === steps ? `${label} ${unit}` : label;
    parts.push(
      textAt(x + (width * i) / steps, y - BAR_mm - 1.2, text, {
        size: SMALL,
        anchor: i === steps ? "start" : "middle",
      }),
    );
  }
  return parts.join("");
}

interface Entry {
  readonly x: number;
  draw(x: number, y: number): string;
}

const SWATCH = { width: 6.5, height: 3.4 } as const;

function legendRows(legend: PictureLegend, words: PictureWords, room: number): Entry[][] {
  const all: [fill: string, stroke: string, text: string][] = legend.tones.map((tone) => [
    hexOf(TONES[tone]),
    INK_HEX,
    words.tone[tone],
  ]);
  if (legend.hasOutlined) all.push(["#ffffff", hexOf(FAINT), words.outlined]);
  if (legend.hasClash) all.push(["url(#hatch)", INK_HEX, words.clash]);
  if (legend.hasTight) all.push(["url(#dots)", INK_HEX, words.tight]);
  if (legend.hasClash) all.push(["", "", words.hidden]);
  const rows: Entry[][] = [];
  let x = Number.POSITIVE_INFINITY;
  for (const [fill, stroke, text] of all) {
    const swatch = fill === "" ? 0 : SWATCH.width + 1.4;
    const width = swatch + widthOf(text, SMALL) + 4;
    if (x + width > room + 4) {
      rows.push([]);
      x = 0;
    }
    rows.at(-1)!.push({
      x,
      draw: (at, y) =>
        (fill === ""
          ? ""
          : `<rect x="${fixed(at)}" y="${fixed(y - SWATCH.height + 0.6)}" width="${SWATCH.width}" height="${SWATCH.height}" fill="${fill}" stroke="${stroke}" stroke-width="0.25"/>`) +
        textAt(at + swatch, y, text, { size: SMALL }),
    });
    x += width;
  }
  return rows;
}

/** The patterns that double the colours of what touches and what is too near, as the surfaces have them. */
export function patterns(): string {
  const { pitch, line: thick } = HATCH_mm;
  const { pitch: step, radius } = DOTS_mm;
  return [
    "<defs>",
    `<pattern id="hatch" width="${pitch}" height="${pitch}" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">`,
    `<rect width="${pitch}" height="${pitch}" fill="${hexOf(CLASH)}"/><rect width="${thick}" height="${pitch}" fill="${INK_HEX}" opacity="0.5"/></pattern>`,
    `<pattern id="dots" width="${step}" height="${step}" patternUnits="userSpaceOnUse">`,
    `<rect width="${step}" height="${step}" fill="${hexOf(TIGHT)}"/><circle cx="${step / 2}" cy="${step / 2}" r="${radius}" fill="#ffffff"/></pattern>`,
    "</defs>",
  ].join("");
}
