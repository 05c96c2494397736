import { PDFDocument, type PDFPage, PrintScaling } from "@cantoo/pdf-lib";
import { Face, type Faces, pt, type SheetFonts } from "./fonts.ts";
import { type Body, type Frame, layFrame, type SheetFacts } from "./frame.ts";
import type { Mark, MarkedPage } from "./marks.ts";
import { Pen, type Spot, USUAL_TEXT_mm } from "./pen.ts";
import { PAPER_mm, type Paper } from "./sizes.ts";
import { cellLines, columnWidths, type Row, rowHeight, TABLE_STYLE, type Table } from "./table.ts";
import { FRAME_ENGLISH, type FrameWords } from "./words.ts";

export interface SheetSetting {
  readonly paper: Paper;
  readonly fonts: SheetFonts;
  readonly words?: FrameWords;
  /** The long edge lies. */
  readonly landscape?: boolean;
  /** Takes what stands on the pages when the sheet is finished, for showing them. */
  readonly onPages?: ((pages: readonly MarkedPage[]) => void) | undefined;
}

export interface SheetPicture {
  readonly bytes: Uint8Array;
  readonly type: "png" | "jpeg";
  readonly caption?: string;
}

const LINE_FEED = 1.3;
const HEADING_mm = 4;
const GAP_mm = 3;

/**
 * One PDF whose pages all carry the frame: what is added flows down the page and on to the next. Black on white; the letters that are used
 * are embedded; the page is not to be scaled (the viewer's preference asks the printer for none).
 */
export class Sheet {
  /** Room of a page within the frame, mm. */
  readonly body: Body;
  private readonly pages: PDFPage[] = [];
  /** Down from the top of the body to where the next thing goes, mm. */
  private down = 0;

  private readonly pdf: PDFDocument;
  private readonly faces: Faces;
  private readonly frame: Frame;
  private readonly page_mm: { readonly width: number; readonly height: number };
  private readonly marks: Mark[][] = [];
  private readonly onPages: SheetSetting["onPages"];

  private constructor(
    pdf: PDFDocument,
    faces: Faces,
    frame: Frame,
    page_mm: { readonly width: number; readonly height: number },
    onPages: SheetSetting["onPages"],
  ) {
    this.onPages = onPages;
    this.pdf = pdf;
    this.faces = faces;
    this.frame = frame;
    this.page_mm = page_mm;
    this.body = frame.body;
    this.newPage();
  }

  static async begin(facts: SheetFacts, setting: SheetSetting): Promise<Sheet> {
    const { paper, fonts, words = FRAME_ENGLISH, landscape = false } = setting;
    const { width, height } = PAPER_mm[paper];
    const page_mm = landscape ? { width: height, height: width } : { width, height };
    // no clock and no chance: the same sheet is the same file
    const pdf = await PDFDocument.create({ updateMetadata: false });
    pdf.setProducer("Elbowroom");
    pdf.setTitle(`${facts.title}: ${facts.subject}`, { showInWindowTitleBar: true });
    pdf.catalog.getOrCreateViewerPreferences().setPrintScaling(PrintScaling.None);
    const faces = { regular: await Face.embed(pdf, fonts.regular), bold: await Face.embed(pdf, fonts.bold) };
    return new Sheet(pdf, faces, layFrame(facts, page_mm, faces, words), page_mm, setting.onPages);
  }

  get pageCount(): number {
    return this.pages.length;
  }

  /** Room left on this page, mm. */
  get left_mm(): number {
    return this.body.height_mm - this.down;
  }

  newPage(): void {
    this.pages.push(this.pdf.addPage([pt(this.page_mm.width), pt(this.page_mm.height)]));
    this.marks.push([]);
    this.down = 0;
  }

  /** On to the next page unless so much room is left. */
  need(height_mm: number): void {
    if (this.down > 0 && this.left_mm < height_mm) this.newPage();
  }

  gap(height_mm: number = GAP_mm): void {
    if (this.down > 0) this.down += height_mm;
  }

  /** Stays with `keep_mm` of what follows. */
  heading(text: string, keep_mm = 16): void {
    const lines = this.faces.bold.wrap(text, HEADING_mm, this.body.width_mm);
    this.gap(GAP_mm);
    this.need(lines.length * HEADING_mm * LINE_FEED + keep_mm);
    this.lines(lines, HEADING_mm, true);
    this.gap(0.8);
  }

  /** A paragraph; lines are broken where they are too long, and where the text breaks them. */
  text(text: string, { size_mm = USUAL_TEXT_mm, bold = false }: { size_mm?: number; bold?: boolean } = {}): void {
    const face = bold ? this.faces.bold : this.faces.regular;
    this.lines(face.wrap(text, size_mm, this.body.width_mm), size_mm, bold);
    this.gap(1.2);
  }

  /** A drawing of a height, as wide as the body unless told; the pen's corner is its upper left. */
  drawing(height_mm: number, draw: (pen: Pen) => void): void {
    this.need(height_mm);
    draw(this.pen([0, this.down]));
    this.down += height_mm;
  }

  /**
   * Pictures side by side, each as large as fits an equal share of the width and the height given, with their captions below.
   * Bytes that are no PNG or JPEG reject with the library's error.
   */
  async pictures(pictures: readonly SheetPicture[], height_mm: number): Promise<void> {
    const between = 4;
    const width = (this.body.width_mm - between * (pictures.length - 1)) / pictures.length;
    const drawn = await Promise.all(
      pictures.map(async ({ bytes, type, caption = "" }) => {
        const image = await (type === "png" ? this.pdf.embedPng(bytes) : this.pdf.embedJpg(bytes));
        const scale = Math.min(width / image.width, height_mm / image.height);
        const lines = caption === "" ? [] : this.faces.regular.wrap(caption, TABLE_STYLE.text_mm, width);
        return { image, width: image.width * scale, height: image.height * scale, lines, bytes, type };
      }),
    );
    const feed = TABLE_STYLE.lineFeed_mm;
    const tall = Math.max(0, ...drawn.map(({ height }) => height));
    this.need(tall + Math.max(0, ...drawn.map(({ lines }) => lines.length)) * feed + 1);
    for (const [i, { image, width: wide, height, lines, bytes, type }] of drawn.entries()) {
      const left = i * (width + between);
      const x = pt(this.body.left_mm + left);
      const y = this.pages.at(-1)!.getHeight() - pt(this.body.top_mm + this.down + height);
      this.pages.at(-1)!.drawImage(image, { x, y, width: pt(wide), height: pt(height) });
      const at: Spot = [this.body.left_mm + left, this.body.top_mm + this.down];
      this.marks.at(-1)!.push({ kind: "picture", at, width_mm: wide, height_mm: height, bytes, type });
      const pen = this.pen([left, this.down + tall]);
      for (const [n, line] of lines.entries())
        pen.text(line, [0, 1 + (n + 0.75) * feed], { size_mm: TABLE_STYLE.text_mm });
    }
    this.down += tall + 1 + Math.max(0, ...drawn.map(({ lines }) => lines.length)) * feed;
    this.gap(1.2);
  }

  /** A table, its heading again on every page that it goes on to. A row is parted only where it is taller than a page. */
  table(table: Table): void {
    const widths = columnWidths(table, this.faces, this.body.width_mm);
    const heading: Row = { cells: table.columns.map(({ title }) => title), bold: true };
    const headLines = cellLines(heading, widths, this.faces);
    const headHeight = rowHeight(headLines);
    const least = table.rowRoom_mm ?? 0;
    const rows = table.rows.map((row) => {
      const lines = cellLines(row, widths, this.faces);
      return { row, lines, height: Math.max(least, rowHeight(lines)) };
    });
    const begin = () => {
      this.rule(0.35);
      this.row(heading, headLines, widths, headHeight, table);
      this.rule(0.35);
    };
    this.need(headHeight + (rows[0]?.height ?? 0));
    begin();
    for (const { row, lines, height } of rows) {
      if (height > this.left_mm && this.down > headHeight + 1) {
        this.newPage();
        begin();
      }
      let rest = lines;
      let tall = height;
      while (tall > this.left_mm) {
        const fits = Math.max(1, Math.floor((this.left_mm - 2 * TABLE_STYLE.pad_mm) / TABLE_STYLE.lineFeed_mm));
        const now = rest.map((cell) => cell.slice(0, fits));
        this.row(row, now, widths, rowHeight(now), table);
        rest = rest.map((cell) => cell.slice(fits));
        tall = rowHeight(rest);
        this.newPage();
        begin();
      }
      this.row(row, rest, widths, tall, table);
      this.rule(0.12);
    }
    this.gap(GAP_mm);
  }

  /** Draws the frames, now that it is known how many pages there are, and writes the file. */
  async finish(): Promise<Uint8Array> {
    for (const [i, page] of this.pages.entries())
      this.frame.draw(new Pen(page, this.faces, [0, 0], this.marks[i]!), i + 1, this.pages.length);
    const { width: width_mm, height: height_mm } = this.page_mm;
    this.onPages?.(this.marks.map((marks) => ({ width_mm, height_mm, marks })));
    return this.pdf.save();
  }

  private pen([right, down]: Spot): Pen {
    const corner: Spot = [this.body.left_mm + right, this.body.top_mm + down];
    return new Pen(this.pages.at(-1)!, this.faces, corner, this.marks.at(-1)!);
  }

  private lines(lines: readonly string[], size_mm: number, bold: boolean): void {
    for (const line of lines) {
      this.need(size_mm * LINE_FEED);
      this.pen([0, this.down]).text(line, [0, size_mm], { size_mm, bold });
      this.down += size_mm * LINE_FEED;
    }
  }

  private rule(width_mm: number): void {
    this.pen([0, this.down]).line([0, 0], [this.body.width_mm, 0], { width_mm });
  }

  private row(
    { bold = false }: Row,
    lines: readonly (readonly string[])[],
    widths: readonly number[],
    height_mm: number,
    { columns }: Table,
  ): void {
    const { text_mm, pad_mm, side_mm, lineFeed_mm } = TABLE_STYLE;
    const pen = this.pen([0, this.down]);
    let left = 0;
    for (const [i, cell] of lines.entries()) {
      const align = columns[i]!.align ?? "left";
      const right = align === "left" ? left + side_mm : left + widths[i]! - side_mm;
      // a field to write in is seen to be one
      if (columns[i]!.room_mm) pen.line([left, 0], [left, height_mm], { width_mm: 0.12 });
      for (const [n, line] of cell.entries())
        pen.text(line, [right, pad_mm + (n + 0.75) * lineFeed_mm], { size_mm: text_mm, bold, align });
      left += widths[i]!;
    }
    this.down += height_mm;
  }
}
