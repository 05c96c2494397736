import fontkit from "@cantoo/fontkit";
import type { PDFDocument, PDFFont } from "@cantoo/pdf-lib";
import { POINTS_PER_mm } from "./sizes.ts";

/** The bytes of the fonts of a sheet (TrueType, OpenType or WOFF): a letter comes from the first that has it. */
export interface SheetFonts {
  readonly regular: readonly Uint8Array[];
  readonly bold: readonly Uint8Array[];
}

export interface TextRun {
  readonly font: PDFFont;
  readonly text: string;
  readonly width_mm: number;
}

/** What stands for a letter that no font has. */
const MISSING = "?";

/** A face made of several fonts, of which only the letters that are used are embedded. Sizes are mm, as drawn. */
export class Face {
  private readonly fonts: readonly { font: PDFFont; has: ReadonlySet<number> }[];
  private readonly runsOf = new Map<string, readonly TextRun[]>();

  private constructor(fonts: readonly PDFFont[]) {
    this.fonts = fonts.map((font) => ({ font, has: new Set(font.getCharacterSet()) }));
  }

  static async embed(pdf: PDFDocument, files: readonly Uint8Array[]): Promise<Face> {
    pdf.registerFontkit(fontkit);
    const fonts: PDFFont[] = [];
    for (const bytes of files) fonts.push(await pdf.embedFont(bytes, { subset: true }));
    return new Face(fonts);
  }

  /** A line in pieces of one font each. Whatever is not a printable letter is a space. */
  runs(line: string, size_mm: number): readonly TextRun[] {
    const key = `${size_mm} ${line}`;
    const kept = this.runsOf.get(key);
    if (kept) return kept;
    const pieces: { font: PDFFont; text: string }[] = [];
    for (const letter of printable(line)) {
      const [font, text] = this.fontOf(letter);
      const last = pieces.at(-1);
      if (last?.font === font) last.text += text;
      else pieces.push({ font, text });
    }
    const runs = pieces.map(({ font, text }) => ({ font, text, width_mm: font.widthOfTextAtSize(text, size_mm) }));
    this.runsOf.set(key, runs);
    return runs;
  }

  width(line: string, size_mm: number): number {
    return this.runs(line, size_mm).reduce((sum, { width_mm }) => sum + width_mm, 0);
  }

  /** Text in lines no wider than the room, broken at spaces, and within a word only where it is wider than a line. */
  wrap(text: string, size_mm: number, room_mm: number): string[] {
    return text.split(/\r\n|\r|\n/).flatMap((paragraph) => this.wrapParagraph(paragraph, size_mm, room_mm));
  }

  private wrapParagraph(paragraph: string, size_mm: number, room_mm: number): string[] {
    const lines: string[] = [];
    let line = "";
    for (const word of paragraph.split(/[ \t]+/)) {
      const longer = line === "" ? word : `${line} ${word}`;
      if (this.width(longer, size_mm) <= room_mm) {
        line = longer;
        continue;
      }
      if (line !== "") lines.push(line);
      const pieces = this.broken(word, size_mm, room_mm);
      lines.push(...pieces.slice(0, -1));
      line = pieces.at(-1)!;
    }
    return [...lines, line];
  }

  private broken(word: string, size_mm: number, room_mm: number): string[] {
    const pieces: string[] = [""];
    for (const letter of word) {
      const longer = pieces.at(-1)! + letter;
      if (pieces.at(-1) !== "" && this.width(longer, size_mm) > room_mm) pieces.push(letter);
      else pieces[pieces.length - 1] = longer;
    }
    return pieces;
  }

  private fontOf(letter: string): readonly [PDFFont, string] {
    const font = this.fonts.find(({ has }) => has.has(letter.codePointAt(0)!));
    return font ? [font.font, letter] : [this.fonts[0]!.font, MISSING];
  }
}

export interface Faces {
  readonly regular: Face;
  readonly bold: Face;
}

/** Accents joined to their letters (NFC), control characters and odd spaces as spaces. */
function printable(line: string): string {
  return line.normalize("NFC").replace(/[\p{Cc}\p{Zs}\p{Zl}\p{Zp}]/gu, " ");
}

export const pt = (mm: number): number => mm * POINTS_PER_mm;
