import type { SheetFacts } from "../paper/frame.ts";
import type { LineStyle, Pen, Spot } from "../paper/pen.ts";
import { Sheet, type SheetSetting } from "../paper/sheet.ts";
import { BARS_mm, type Correction, drawBarsAcross, drawBarsDown, NO_CORRECTION } from "./checkBars.ts";
import { type Box, boxOf, type Drawing, type Flat, LAYERS, type Layer, polygonOf } from "./drawing.ts";
import { drawingOf, notesOf, type TemplatePart } from "./templates.ts";
import { drawTiles, layTiles, type Tiling } from "./tiles.ts";
import { type Note, plain, TEMPLATE_ENGLISH, type TemplateWords } from "./words.ts";

/** Chords of arcs stand off them by less than a printer can show. */
const SAG_mm = 0.01;
const NOTE_mm = 2.8;
const NOTE_FEED_mm = 3.8;
/** Room for a letter of notes, mm, wide ones and all. */
const NOTE_LETTER_mm = 1.42;
/** Notes beside a template are no narrower, mm. */
const NARROWEST_mm = 60;
const GAP_mm = 6;

const STYLES: Readonly<Record<Layer, LineStyle>> = {
  cut: { width_mm: 0.25 },
  fold: { width_mm: 0.2, dash_mm: [6, 1.5, 1, 1.5] },
  etch: { width_mm: 0.15 },
  note: { width_mm: 0.12 },
};

/** White kept about a template, so that no line of it is clipped, mm. */
const EDGE_mm = 2;

/** What is drawn of a template on paper, mm as it comes out of a true printer, and how it is turned to go on the page. */
interface Print {
  readonly notes: readonly Note[];
  readonly width_mm: number;
  readonly height_mm: number;
  /** Smaller, it is drawn without its words. */
  readonly draw: (pen: Pen, scale?: number) => void;
}

/**
 * Templates at full size, several to a page where they fit, over several pages with overlaps where one does not. Every page has check bars of
 * 100 mm and 4 in both ways; `correction` makes good what the printer did to them.
 */
export async function templatesPdf(
  parts: readonly TemplatePart[],
  facts: SheetFacts,
  setting: SheetSetting,
  correction: Correction = NO_CORRECTION,
  words: TemplateWords = TEMPLATE_ENGLISH,
): Promise<Uint8Array> {
  const sheet = await Sheet.begin(facts, setting);
  const room = {
    width: sheet.body.width_mm - BARS_mm.beside,
    height: sheet.body.height_mm - BARS_mm.below - NOTE_FEED_mm,
  };
  let down = 0;
  let isFresh = true;
  const turnPage = () => {
    if (!isFresh) sheet.newPage();
    isFresh = false;
    down = 0;
    sheet.drawing(0, (pen) => drawFurniture(pen, sheet, correction, words));
  };
  for (const part of parts) {
    const print = printOf(part, room, correction, words);
    const block = blockOf(print, room);
    if (block) {
      if (isFresh || down + block.height_mm > room.height) turnPage();
      const top = down;
      sheet.drawing(0, (pen) => block.draw(pen.at([0, top])));
      down += block.height_mm + GAP_mm;
      continue;
    }
    const tiling = layTiles(print, room);
    const isOne = tiling.tiles.length === 1;
    const notes = broken([...print.notes, ...(isOne ? [] : [plain(tellTiles(tiling, words))])], room.width);
    turnPage();
    sheet.drawing(0, (pen) => {
      drawNotes(pen, notes);
      const below = notesHeight(notes) + 2;
      if (isOne) return;
      const rest = { width: room.width, height: room.height - below };
      drawOverview(pen.at([0, below]), print, tiling, rest, words);
    });
    drawTiles(tiling, print, words, (draw) => {
      turnPage();
      sheet.drawing(0, draw);
    });
    // what follows begins on a page of its own
    down = room.height;
  }
  return sheet.finish();
}

interface Block {
  readonly height_mm: number;
  readonly draw: (pen: Pen) => void;
}

/** A template and its notes on one page, beside each other where that takes less of it; null: they do not fit on one. */
function blockOf(print: Print, room: { readonly width: number; readonly height: number }): Block | null {
  const { width_mm, height_mm } = print;
  if (width_mm > room.width) return null;
  const above = broken(print.notes, room.width);
  const stacked: Block = {
    height_mm: notesHeight(above) + height_mm,
    draw(pen) {
      drawNotes(pen, above);
      print.draw(pen.at([0, notesHeight(above)]));
    },
  };
  const left_mm = room.width - width_mm - GAP_mm;
  const aside = left_mm >= NARROWEST_mm ? broken(print.notes, left_mm) : [];
  const beside: Block = {
    height_mm: Math.max(notesHeight(aside), height_mm),
    draw(pen) {
      print.draw(pen);
      drawNotes(pen.at([width_mm + GAP_mm, 0]), aside);
    },
  };
  const block = aside.length > 0 && beside.height_mm < stacked.height_mm ? beside : stacked;
  return block.height_mm <= room.height ? block : null;
}

function notesHeight(notes: readonly Note[]): number {
  return notes.length * NOTE_FEED_mm + 2;
}

function drawFurniture(pen: Pen, { body }: Sheet, correction: Correction, words: TemplateWords): void {
  drawBarsAcross(pen.at([0, body.height_mm - BARS_mm.below]), correction);
  drawBarsDown(pen.at([body.width_mm - BARS_mm.beside + 4, 0]), correction);
  pen.text(tellScale(correction, words), [0, body.height_mm - BARS_mm.below - 0.8], { size_mm: 2.4 });
}

/** What is said above the bars. */
function tellScale({ across, down }: Correction, words: TemplateWords): string {
  if (across === 1 && down === 1) return words.printAsIs;
  const percent = (scale: number) => (scale * 100).toFixed(1);
  return words.corrected({ across: percent(across), down: percent(down) });
}

function tellTiles({ columns, rows }: Tiling, words: TemplateWords): string {
  return words.tiles({ pages: String(columns * rows), rows: String(rows), columns: String(columns) });
}

function drawNotes(pen: Pen, notes: readonly Note[]): void {
  for (const [i, { text, isWarning }] of notes.entries()) {
    const isLoud = i === 0 || isWarning;
    pen.text(text, [0, (i + 0.8) * NOTE_FEED_mm], { size_mm: NOTE_mm, bold: isLoud });
  }
}

/** The template upright or lying, whichever takes fewer pages. */
function printOf(
  part: TemplatePart,
  room: { readonly width: number; readonly height: number },
  correction: Correction,
  words: TemplateWords,
): Print {
  const drawing = drawingOf(part, words);
  const tight = boxOf(drawing);
  const box: Box = {
    min: [tight.min[0] - EDGE_mm, tight.min[1] - EDGE_mm],
    max: [tight.max[0] + EDGE_mm, tight.max[1] + EDGE_mm],
  };
  const notes = notesOf(part, words);
  const [width, height] = [box.max[0] - box.min[0], box.max[1] - box.min[1]];
  const pages = (across: number, down: number) =>
    layTiles({ width_mm: across * correction.across, height_mm: down * correction.down }, room).tiles.length;
  const isTurned = pages(height, width) < pages(width, height);
  const { across, down } = correction;
  const place = ([u, v]: Flat): Spot =>
    isTurned
      ? [(v - box.min[1]) * across, (u - box.min[0]) * down]
      : [(u - box.min[0]) * across, (box.max[1] - v) * down];
  return {
    notes,
    width_mm: (isTurned ? height : width) * across,
    height_mm: (isTurned ? width : height) * down,
    draw: (pen, scale = 1) => {
      const small = (at: Flat): Spot => {
        const [right, below] = place(at);
        return [right * scale, below * scale];
      };
      drawStrokes(pen, drawing, small);
      if (scale === 1) drawWords(pen, drawing, place, isTurned);
    },
  };
}

function drawStrokes(pen: Pen, drawing: Drawing, place: (at: Flat) => Spot): void {
  for (const layer of LAYERS) {
    for (const stroke of drawing.strokes[layer]) {
      const style = STYLES[layer];
      if (stroke.kind === "line") pen.path(stroke.points.map(place), style);
      else if (stroke.kind === "ring") pen.path(polygonOf(stroke, SAG_mm).map(place), { ...style, closed: true });
      else pen.path(roundOf(stroke).map(place), { ...style, closed: true });
    }
  }
}

function drawWords(pen: Pen, drawing: Drawing, place: (at: Flat) => Spot, isTurned: boolean): void {
  for (const { at, height_mm, turn_deg, text } of [...drawing.words.etch, ...drawing.words.note]) {
    // capitals are about 0.7 of a face's size
    pen.text(text, place(at), { size_mm: height_mm / 0.7, turn_deg: isTurned ? turn_deg - 90 : turn_deg });
  }
}

/** As a polygon, so that a correction that differs both ways reaches it. */
function roundOf({ centre, diameter_mm }: { readonly centre: Flat; readonly diameter_mm: number }): Flat[] {
  const r = diameter_mm / 2;
  const half = { bulge: 1 };
  return polygonOf(
    {
      kind: "ring",
      corners: [
        { at: [centre[0] - r, centre[1]], ...half },
        { at: [centre[0] + r, centre[1]], ...half },
      ],
    },
    SAG_mm,
  );
}

/** The whole template small, with the pages that it goes over. */
function drawOverview(
  pen: Pen,
  print: Print,
  tiling: Tiling,
  room: { readonly width: number; readonly height: number },
  words: TemplateWords,
): void {
  const scale = Math.min(1, (room.width - 10) / tiling.width_mm, (room.height - 10) / tiling.height_mm) * 0.6;
  for (const { name, left_mm, top_mm } of tiling.tiles) {
    const [right, below] = [left_mm * scale, top_mm * scale];
    pen.box([right, below], tiling.tile.width * scale, tiling.tile.height * scale, { width_mm: 0.2 });
    pen.text(name, [right + 2, below + 5], { size_mm: 3.5, bold: true });
  }
  print.draw(pen, scale);
  pen.text(words.notToScale, [0, tiling.height_mm * scale + 5], { size_mm: 2.6 });
}

/** Notes in lines that the width has room for. */
function broken(notes: readonly Note[], width_mm: number): Note[] {
  const letters = Math.floor(width_mm / NOTE_LETTER_mm);
  return notes.flatMap(({ text, isWarning }) => {
    const lines: Note[] = [];
    let rest = text;
    while (rest.length > letters) {
      const space = rest.lastIndexOf(" ", letters);
      const at = space > letters / 2 ? space : letters;
      lines.push({ text: rest.slice(0, at), isWarning });
      rest = rest.slice(at).trimStart();
    }
    return [...lines, { text: rest, isWarning }];
  });
}
