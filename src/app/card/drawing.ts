import type { MarkKind } from "../marks/GapMark.tsx";

/** A card's width as it is laid out; the picture has twice as many dots. */
export const WIDTH = 1240;
export const INK = "#12191b";
export const INK2 = "#465254";
export const LINE = "#c5cfcd";

const COLOURS: Readonly<Record<MarkKind, string>> = {
  clash: "#d55e00",
  tight: "#0072b2",
  clear: "#009e73",
  accepted: "#5c696b",
  limit: "#12191b",
};

interface TextLook {
  readonly size: number;
  readonly weight?: number;
  readonly italic?: boolean;
  readonly colour?: string;
  readonly align?: "left" | "right";
  /** Breaks lines at this width; without it the text is one line. */
  readonly width?: number;
}

const LINE_HEIGHT = 1.32;

/** Draws text with its top at `y`; gives back where it ends. */
export function drawText(
  context: CanvasRenderingContext2D,
  text: string,
  x: number,
  y: number,
  { size, weight = 430, italic = false, colour = INK, align = "left", width }: TextLook,
): number {
  context.font = `${italic ? "italic " : ""}${weight} ${size}px "Atkinson Hyperlegible Next Variable", system-ui, sans-serif`;
  context.fillStyle = colour;
  context.textAlign = align;
  context.textBaseline = "top";
  const lines = width === undefined ? [text] : brokenLines(text, width, (part) => context.measureText(part).width);
  for (const [index, line] of lines.entries()) context.fillText(line, x, y + size * 0.12 + index * size * LINE_HEIGHT);
  return y + lines.length * size * LINE_HEIGHT;
}

/** Breaks at blanks where a line would run over; a word wider than the line is cut. Line breaks of the text stay. */
export function brokenLines(text: string, width: number, widthOf: (text: string) => number): string[] {
  return text.split("\n").flatMap((paragraph) => {
    const lines: string[] = [];
    let line = "";
    for (const word of paragraph.split(" ")) {
      const longer = line === "" ? word : `${line} ${word}`;
      if (widthOf(longer) <= width) {
        line = longer;
        continue;
      }
      if (line !== "") lines.push(line);
      line = word;
      while (widthOf(line) > width && line.length > 1) {
        let fits = line.length - 1;
        while (fits > 1 && widthOf(line.slice(0, fits)) > width) fits--;
        lines.push(line.slice(0, fits));
        line = line.slice(fits);
      }
    }
    return [...lines, line];
  });
}

export function drawPlain(context: CanvasRenderingContext2D, text: string, x: number, y: number): void {
  drawText(context, text, x, y + 6, { size: 17 });
}

export function rule(context: CanvasRenderingContext2D, x: number, y: number, width: number, colour = LINE): void {
  context.fillStyle = colour;
  context.fillRect(x, y, width, colour === INK ? 2 : 1);
}

/** The gap marks of the app: noses that overlap, kiss, or stand apart; a limit is a hollow diamond. */
export function drawMark(context: CanvasRenderingContext2D, kind: MarkKind, x: number, y: number, size: number): void {
  context.save();
  context.translate(x, y);
  context.scale(size / 24, size / 24);
  context.fillStyle = COLOURS[kind];
  context.strokeStyle = COLOURS[kind];
  context.lineWidth = 2.2;
  if (kind === "clash") {
    context.fill(new Path2D("M1.2 4.5h3.5a13 7.5 0 0 1 0 15h-3.5z"));
    context.fill(new Path2D("M22.8 4.5h-3.5a13 7.5 0 0 0 0 15h3.5z"));
    context.fillStyle = INK;
    context.strokeStyle = "#ffffff";
    context.lineWidth = 1.2;
    const lens = new Path2D("M12 7.1q4.4 4.9 0 9.8q-4.4-4.9 0-9.8z");
    context.fill(lens);
    context.stroke(lens);
  } else if (kind === "tight") {
    context.fill(new Path2D("M1 4.5h2a8.7 7.5 0 0 1 0 15H1z"));
    context.lineWidth = 2;
    context.stroke(new Path2D("M22 5.5h-.6a8 6.5 0 0 0 0 13h.6z"));
  } else if (kind === "limit") {
    context.stroke(new Path2D("M12 4 20 12 12 20 4 12z"));
  } else {
    context.stroke(new Path2D("M1.8 5.5h.4a6.5 6.5 0 0 1 0 13h-.4M22.2 5.5h-.4a6.5 6.5 0 0 0 0 13h.4"));
  }
  context.restore();
}
