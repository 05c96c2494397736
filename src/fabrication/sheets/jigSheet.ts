import { formatLength, type LengthUnit } from "../../scene/length.ts";
import type { Side } from "../../scene/scene.ts";
import type { SheetFacts } from "../paper/frame.ts";
import type { Pen, Spot } from "../paper/pen.ts";
import { Sheet, type SheetSetting } from "../paper/sheet.ts";
import type { CheckLength, JigSheetData, StationSide } from "./jigSheetData.ts";

/** What the sheet says beside numbers and names, in the language of the sheet. */
export interface JigSheetWords {
  readonly plan: string;
  readonly planScale: (scale: number) => string;
  readonly forward: string;
  readonly centreLine: string;
  readonly axleLine: string;
  readonly heights: string;
  readonly number: string;
  readonly mount: string;
  readonly forwardOf: string;
  readonly out: string;
  readonly height: string;
  readonly under: (bar: string) => string;
  readonly within: string;
  readonly onCar: string;
  readonly across: string;
  readonly diagonals: string;
  readonly diagonalsNote: string;
  readonly alongside: string;
  readonly alongsideNote: string;
  readonly from: string;
  readonly to: string;
  readonly straight: string;
  readonly onTable: string;
  readonly side: Readonly<Record<Side, (point: string) => string>>;
  readonly notes: readonly string[];
}

export const JIG_ENGLISH: JigSheetWords = {
  plan: "From above",
  planScale: (scale) => `Scale 1 : ${scale}. Numbers are those of the table; long dashes are the diagonals.`,
  forward: "forward",
  centreLine: "centre line",
  axleLine: "axle line",
  heights: "Heights over the jig table",
  number: "No.",
  mount: "Mount",
  forwardOf: "Forward",
  out: "Out",
  height: "Centre over table",
  under: (bar) => `Stand under Ø ${bar} bar`,
  within: "Within ±",
  onCar: "Measured",
  across: "Across the car",
  diagonals: "Diagonals",
  diagonalsNote: "Each is measured twice, left to right and right to left as its mirror image: both must be the same.",
  alongside: "Along one side",
  alongsideNote: "The same on both sides.",
  from: "From",
  to: "To",
  straight: "Tape, centre to centre",
  onTable: "Plumbed on the table",
  side: { left: (point) => `${point}, left`, right: (point) => `${point}, right` },
  notes: [
    "Hook the tape over the same edge of two dummy bars of one diameter: from edge to edge is then from centre to centre.",
    "The lengths hold the mounts to each other; set the whole to the centre line and the axle line by forward and out.",
    "Within ± is what a length may be off while both of its mounts are within theirs.",
  ],
};

const ROOM_mm = 22;

/** The jig sheet on paper: a plan to scale, heights over the table, and the lengths for the tape with boxes for what it read. */
export async function jigSheet(
  data: JigSheetData,
  bar_mm: number | null,
  facts: SheetFacts,
  setting: SheetSetting,
  unit: LengthUnit,
  words: JigSheetWords = JIG_ENGLISH,
): Promise<Uint8Array> {
  const sheet = await Sheet.begin(facts, setting);
  const size = (mm: number): string => formatLength(mm, unit);
  drawPlan(sheet, data, words);
  sheet.heading(words.heights);
  sheet.table({
    columns: [
      { title: words.number },
      { title: words.mount },
      ...[words.forwardOf, words.out, words.height].map((title) => ({ title, align: "right" as const })),
      ...(bar_mm === null ? [] : [{ title: words.under(size(bar_mm)), align: "right" as const }]),
      { title: words.within, align: "right" },
      { title: words.onCar, room_mm: ROOM_mm },
    ],
    rows: data.stations.map(({ number, point, forward_mm, out_mm, height_mm, under_mm, tolerance_mm }) => ({
      cells: [
        String(number),
        point,
        ...[forward_mm, out_mm, height_mm].map(size),
        ...(under_mm === null ? [] : [size(under_mm)]),
        size(tolerance_mm),
        "",
      ],
    })),
  });
  const lengths = (title: string, rows: readonly CheckLength[], boxes: number, note?: string): void => {
    if (rows.length === 0) return;
    sheet.heading(title, 24);
    if (note) sheet.text(note);
    const told = ({ point, side }: StationSide): string => words.side[side](point);
    sheet.table({
      columns: [
        { title: words.from },
        { title: words.to },
        { title: words.straight, align: "right" },
        { title: words.onTable, align: "right" },
        { title: words.within, align: "right" },
        ...Array.from({ length: boxes }, () => ({ title: words.onCar, room_mm: ROOM_mm })),
      ],
      rows: rows.map(({ from, to, straight_mm, onTable_mm, within_mm }) => ({
        cells: [told(from), told(to), size(straight_mm), size(onTable_mm), size(within_mm), ...Array(boxes).fill("")],
      })),
    });
  };
  lengths(words.across, data.across, 1);
  lengths(words.diagonals, data.diagonals, 2, words.diagonalsNote);
  lengths(words.alongside, data.alongside, data.bothSides ? 2 : 1, data.bothSides ? words.alongsideNote : undefined);
  for (const note of words.notes) sheet.text(note);
  return sheet.finish();
}

const SCALES = [2, 2.5, 5, 7.5, 10, 15, 20, 25, 50, 100];
const TALLEST_mm = 95;

/** Forward is up, the left side on the left, as one stands behind the car. */
function drawPlan(sheet: Sheet, data: JigSheetData, words: JigSheetWords): void {
  const { stations, bothSides } = data;
  if (stations.length === 0) return;
  const fore = stations.map(({ forward_mm }) => forward_mm);
  const [front, rear] = [Math.max(0, ...fore) + 40, Math.min(0, ...fore) - 40];
  const widest = Math.max(...stations.map(({ out_mm }) => Math.abs(out_mm))) + 60;
  const far = bothSides ? widest : 60;
  const [room, edge] = [sheet.body.width_mm, 6];
  const scale =
    SCALES.find((s) => (widest + far) / s <= room - 2 * edge && (front - rear) / s <= TALLEST_mm - edge) ??
    SCALES.at(-1)!;
  const height = (front - rear) / scale + edge;
  sheet.heading(words.plan, height + 8);
  sheet.drawing(height + 2, (pen) => {
    const centre = edge + widest / scale + (room - 2 * edge - (widest + far) / scale) / 2;
    const spot = (forward_mm: number, left_mm: number): Spot => [
      centre - left_mm / scale,
      (front - forward_mm) / scale + edge / 2,
    ];
    axes(pen, spot, { front, rear, left: widest, right: far }, words);
    const place = ({ point, side }: StationSide): Spot => {
      const { forward_mm, out_mm } = stations.find((station) => station.point === point)!;
      return spot(forward_mm, side === "left" ? out_mm : -out_mm);
    };
    for (const { from, to } of data.diagonals) {
      pen.line(place(from), place(to), { width_mm: 0.15, dash_mm: [4, 1.5] });
      pen.line(place({ ...from, side: "right" }), place({ ...to, side: "left" }), {
        width_mm: 0.15,
        dash_mm: [4, 1.5],
      });
    }
    for (const { from, to } of data.across) pen.line(place(from), place(to), { width_mm: 0.15, dash_mm: [0.8, 0.8] });
    for (const side of bothSides ? (["left", "right"] as const) : (["left"] as const)) {
      const spots = stations.map(({ point, number }) => ({ spot: place({ point, side }), number }));
      for (const { spot } of spots) {
        pen.fill([circleOf(spot, 1.5)], 1);
        pen.circle(spot, 1.5, { width_mm: 0.3 });
        pen.fill([circleOf(spot, 0.4)]);
      }
      for (const { spot, text } of labels(spots)) {
        const [aside, align] = side === "left" ? ([-2.2, "right"] as const) : ([2.2, "left"] as const);
        pen.text(text, [spot[0] + aside, spot[1] - 1.2], { align, bold: true });
      }
    }
  });
  sheet.text(words.planScale(scale), { size_mm: 2.8 });
}

function axes(
  pen: Pen,
  spot: (forward_mm: number, left_mm: number) => Spot,
  reach: { front: number; rear: number; left: number; right: number },
  words: JigSheetWords,
): void {
  const chain = [6, 1, 1, 1];
  const top = spot(reach.front, 0);
  const beside = spot(0, reach.left);
  pen.line(top, spot(reach.rear, 0), { width_mm: 0.2, dash_mm: chain });
  pen.line(beside, spot(0, -reach.right), { width_mm: 0.2, dash_mm: chain });
  pen.path([[top[0] - 1, top[1] + 2.4], top, [top[0] + 1, top[1] + 2.4]], { width_mm: 0.3 });
  pen.text(words.forward, [top[0] + 2, top[1] + 3], { size_mm: 2.8 });
  pen.text(words.centreLine, [top[0] - 2, top[1] + 3], { size_mm: 2.8, align: "right" });
  pen.text(words.axleLine, [beside[0], beside[1] - 0.8], { size_mm: 2.8 });
}

/** Mounts that stand close together share a label, so that it can be read. */
function labels(spots: readonly { readonly spot: Spot; readonly number: number }[]): { spot: Spot; text: string }[] {
  const told: { spot: Spot; text: string }[] = [];
  for (const { spot, number } of spots) {
    const near = told.find((label) => Math.hypot(label.spot[0] - spot[0], label.spot[1] - spot[1]) < 4.5);
    if (near) near.text += `, ${number}`;
    else told.push({ spot, text: String(number) });
  }
  return told;
}

function circleOf([right, down]: Spot, radius_mm: number): Spot[] {
  return Array.from({ length: 24 }, (_, i) => {
    const angle = (i * Math.PI) / 12;
    return [right + radius_mm * Math.cos(angle), down + radius_mm * Math.sin(angle)] as const;
  });
}
