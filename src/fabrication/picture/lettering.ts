import { xmlText } from "../xmlText.ts";
import { hexOf, INK, PAPER } from "./colours.ts";

/** The family that all lettering is in; its files come with the tools (rasterise.ts). */
export const FAMILY = "Atkinson Hyperlegible Next";

/** Widths of characters in ems, on the wide side: there is no need to measure letters to keep boxes apart. */
const NARROW = new Set("ijlI.,:;'|!()[] /");
const WIDE = new Set("mwMW@%");

/** How wide text gets at most, in the unit of its size. */
export function widthOf(text: string, size: number): number {
  let ems = 0;
  for (const letter of text) {
    if (NARROW.has(letter)) ems += 0.34;
    else if (WIDE.has(letter)) ems += 0.92;
    else ems += letter === letter.toLowerCase() ? 0.59 : 0.68;
  }
  return ems * size;
}

/** The text in lines no wider than `width`, broken at blanks; a word that is wider is cut short. */
export function linesOf(text: string, size: number, width: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/)) {
    const last = lines.at(-1);
    const longer = last === undefined ? word : `${last} ${word}`;
    if (last !== undefined && widthOf(longer, size) <= width) lines[lines.length - 1] = longer;
    else lines.push(cutTo(word, size, width));
  }
  return lines;
}

export function cutTo(text: string, size: number, width: number): string {
  if (widthOf(text, size) <= width) return text;
  let cut = text;
  while (cut.length > 1 && widthOf(`${cut}…`, size) > width) cut = cut.slice(0, -1);
  return `${cut}…`;
}

export interface TextLook {
  readonly size: number;
  readonly anchor?: "start" | "middle" | "end";
  readonly isStrong?: boolean;
  readonly colour?: string;
  /** White round the letters, so that they can be read over anything. */
  readonly halo?: boolean;
  readonly turn_deg?: number;
}

/** One line of text in SVG, its baseline at y. What the user wrote is written, never read as markup. */
export function textAt(x: number, y: number, text: string, look: TextLook): string {
  const { size, anchor = "start", isStrong = false, colour = hexOf(INK), halo = false, turn_deg } = look;
  const turn = turn_deg === undefined ? "" : ` transform="rotate(${turn_deg} ${fixed(x)} ${fixed(y)})"`;
  const weight = isStrong ? ' font-weight="700"' : "";
  const place = `x="${fixed(x)}" y="${fixed(y)}" text-anchor="${anchor}" font-family="${FAMILY}" font-size="${fixed(size)}"${weight}${turn}`;
  const letters = xmlText(text);
  const under = halo
    ? `<text ${place} fill="none" stroke="${hexOf(PAPER)}" stroke-width="${fixed(size * 0.36)}" stroke-linejoin="round">${letters}</text>`
    : "";
  return `${under}<text ${place} fill="${colour}">${letters}</text>`;
}

export function fixed(value: number): string {
  return String(Math.round(value * 1000) / 1000 + 0);
}
