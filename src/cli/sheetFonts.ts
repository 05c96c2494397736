import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import type { SheetFonts } from "../fabrication/paper/fonts.ts";

const require = createRequire(import.meta.url);

/** The fonts of printed sheets from where the package is installed. */
export async function sheetFonts(): Promise<SheetFonts> {
  const [regular, bold] = await Promise.all([400, 700].map(weight));
  return { regular: regular!, bold: bold! };
}

/** The page's own letters first; what those lack (Cyrillic, Greek) comes from a plain face beside them. */
const FILES = [
  ["atkinson-hyperlegible-next", "latin"],
  ["atkinson-hyperlegible-next", "latin-ext"],
  ["noto-sans", "cyrillic"],
  ["noto-sans", "greek"],
] as const;

function weight(value: number): Promise<Uint8Array[]> {
  return Promise.all(
    FILES.map(([face, letters]) =>
      readFile(require.resolve(`@fontsource/${face}/files/${face}-${letters}-${value}-normal.woff`)),
    ),
  );
}
