import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import type { SheetFonts } from "../fabrication/paper/fonts.ts";

const require = createRequire(import.meta.url);

/** The fonts of printed sheets from where the package is installed. */
export async function sheetFonts(): Promise<SheetFonts> {
  const [regular, bold] = await Promise.all([400, 700].map(weight));
  return { regular: regular!, bold: bold! };
}

function weight(value: number): Promise<Uint8Array[]> {
  const file = (letters: string) =>
    require.resolve(
      `@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-${letters}-${value}-normal.woff`,
    );
  return Promise.all([readFile(file("latin")), readFile(file("latin-ext"))]);
}
