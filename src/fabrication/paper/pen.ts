import {
  appendBezierCurve,
  closePath,
  degrees,
  endPath as endOfPath,
  fillEvenOdd,
  grayscale,
  lineTo,
  moveTo,
  type PDFOperator,
  type PDFPage,
  popGraphicsState,
  pushGraphicsState,
  rectangle,
  clip as setClip,
  setDashPattern,
  setFillingGrayscaleColor,
  setLineCap,
  setLineJoin,
  setLineWidth,
  setStrokingGrayscaleColor,
  stroke,
} from "@cantoo/pdf-lib";
import { type Faces, pt } from "./fonts.ts";
import type { Mark, Spot } from "./marks.ts";

export type { Spot } from "./marks.ts";

export interface LineStyle {
  readonly width_mm?: number;
  /** Lengths of dashes and of gaps in turn. */
  readonly dash_mm?: readonly number[];
  /** 0 black to 1 white. */
  readonly grey?: number;
}

export interface TextStyle {
  /** From one line's foot to the next at 1.25 times this; capitals are about 0.7 of it high. */
  readonly size_mm?: number;
  readonly bold?: boolean;
  readonly align?: "left" | "centre" | "right";
  /** Anticlockwise, about the place. */
  readonly turn_deg?: number;
  readonly grey?: number;
}

export const USUAL_TEXT_mm = 3.2;
const USUAL_LINE_mm = 0.25;

/** Four Bézier arcs make a circle within 0.03 % of its radius with this reach (well-known constant, 4/3·(√2 − 1)). */
const ARC = (4 / 3) * (Math.SQRT2 - 1);

/** Draws on one page in millimetres from a corner of its own, true to scale: right and down are positive. */
export class Pen {
  private readonly page: PDFPage;
  private readonly faces: Faces;
  /** On the page, mm from its upper left. */
  private readonly corner: Spot;
  private readonly marks: Mark[];

  /** `marks` takes what is drawn, too. */
  constructor(page: PDFPage, faces: Faces, corner: Spot, marks: Mark[]) {
    this.page = page;
    this.faces = faces;
    this.corner = corner;
    this.marks = marks;
  }

  /** A pen on the same page whose corner lies there. */
  at([right, down]: Spot): Pen {
    return new Pen(this.page, this.faces, [this.corner[0] + right, this.corner[1] + down], this.marks);
  }

  line(from: Spot, to: Spot, style: LineStyle = {}): void {
    this.path([from, to], style);
  }

  /** Straight from spot to spot. */
  path(spots: readonly Spot[], style: LineStyle & { readonly closed?: boolean } = {}): void {
    if (spots.length < 2) return;
    this.marks.push({ kind: "path", spots: spots.map(this.onPage), closed: style.closed ?? false, ...strokeOf(style) });
    this.stroked([...this.through(spots), ...(style.closed ? [closePath()] : [])], style);
  }

  /** Filled, holes left out where the outlines nest (even-odd rule). */
  fill(outlines: readonly (readonly Spot[])[], grey = 0): void {
    this.marks.push({ kind: "fill", outlines: outlines.map((spots) => spots.map(this.onPage)), grey });
    const ways = outlines.flatMap((spots) => [...this.through(spots), closePath()]);
    this.page.pushOperators(
      pushGraphicsState(),
      setFillingGrayscaleColor(grey),
      ...ways,
      fillEvenOdd(),
      popGraphicsState(),
    );
  }

  box([right, down]: Spot, width_mm: number, height_mm: number, style: LineStyle = {}): void {
    const far: Spot = [right + width_mm, down + height_mm];
    this.path([[right, down], [far[0], down], far, [right, far[1]]], { ...style, closed: true });
  }

  circle([right, down]: Spot, radius_mm: number, style: LineStyle = {}): void {
    this.marks.push({ kind: "circle", at: this.onPage([right, down]), radius_mm, ...strokeOf(style) });
    const [x, y] = this.on([right, down]);
    const r = pt(radius_mm);
    const k = ARC * r;
    this.stroked(
      [
        moveTo(x + r, y),
        appendBezierCurve(x + r, y + k, x + k, y + r, x, y + r),
        appendBezierCurve(x - k, y + r, x - r, y + k, x - r, y),
        appendBezierCurve(x - r, y - k, x - k, y - r, x, y - r),
        appendBezierCurve(x + k, y - r, x + r, y - k, x + r, y),
        closePath(),
      ],
      style,
    );
  }

  /** One line of text; its foot stands at the spot. */
  text(line: string, spot: Spot, style: TextStyle = {}): void {
    const { size_mm = USUAL_TEXT_mm, bold = false, align = "left", turn_deg = 0, grey = 0 } = style;
    const face = bold ? this.faces.bold : this.faces.regular;
    const width = face.width(line, size_mm);
    let along = align === "left" ? 0 : align === "right" ? -width : -width / 2;
    const turn = (turn_deg * Math.PI) / 180;
    for (const { font, text, width_mm } of face.runs(line, size_mm)) {
      const at: Spot = [spot[0] + along * Math.cos(turn), spot[1] - along * Math.sin(turn)];
      this.marks.push({ kind: "text", text, at: this.onPage(at), size_mm, width_mm, bold, turn_deg, grey });
      const [x, y] = this.on(at);
      this.page.drawText(text, {
        x,
        y,
        font,
        size: pt(size_mm),
        rotate: degrees(turn_deg),
        color: grayscale(grey),
      });
      along += width_mm;
    }
  }

  /** What is drawn in there is cut off at the edges of a box. */
  within([right, down]: Spot, width_mm: number, height_mm: number, draw: (pen: Pen) => void): void {
    const [x, y] = this.on([right, down + height_mm]);
    this.page.pushOperators(pushGraphicsState(), rectangle(x, y, pt(width_mm), pt(height_mm)), setClip(), endOfPath());
    const marks: Mark[] = [];
    this.marks.push({ kind: "within", at: this.onPage([right, down]), width_mm, height_mm, marks });
    draw(new Pen(this.page, this.faces, this.corner, marks));
    this.page.pushOperators(popGraphicsState());
  }

  private readonly onPage = ([right, down]: Spot): Spot => [this.corner[0] + right, this.corner[1] + down];

  /** PDF user space, points from the page's lower left. */
  private on([right, down]: Spot): readonly [number, number] {
    return [pt(this.corner[0] + right), this.page.getHeight() - pt(this.corner[1] + down)];
  }

  private through(spots: readonly Spot[]): PDFOperator[] {
    return spots.map((spot, i) => (i === 0 ? moveTo : lineTo)(...this.on(spot)));
  }

  private stroked(way: readonly PDFOperator[], style: LineStyle): void {
    const { width_mm, dash_mm, grey } = strokeOf(style);
    this.page.pushOperators(
      pushGraphicsState(),
      setLineWidth(pt(width_mm)),
      // butt ends and mitred corners: a line is exactly as long as it is told
      setLineCap(0),
      setLineJoin(0),
      setStrokingGrayscaleColor(grey),
      ...(dash_mm ? [setDashPattern(dash_mm.map(pt), 0)] : []),
      ...way,
      stroke(),
      popGraphicsState(),
    );
  }
}

function strokeOf({ width_mm = USUAL_LINE_mm, dash_mm, grey = 0 }: LineStyle) {
  return { width_mm, dash_mm, grey };
}
