import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import type { DrawingTools } from "../fabrication/picture/rasterise.ts";

const require = createRequire(import.meta.url);
const FACES = ["latin-400", "latin-700", "latin-ext-400", "latin-ext-700"] as const;

/** The program and the letters that pictures are drawn with, as they were installed. */
export async function drawingTools(): Promise<DrawingTools> {
  const [program, ...fonts] = await Promise.all([
    readFile(require.resolve("@resvg/resvg-wasm/index_bg.wasm")),
    ...FACES.map((face) =>
      readFile(
        require.resolve(`@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-${face}-normal.woff2`),
      ),
    ),
  ]);
  return { program: program!, fonts };
}
