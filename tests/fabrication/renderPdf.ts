import { PDFiumLibrary } from "@hyzyla/pdfium";

export interface RenderedPage {
  readonly width_px: number;
  readonly height_px: number;
  /** Of the page as the file says, points of 1/72 inch. */
  readonly width_pt: number;
  readonly height_pt: number;
  readonly px_per_mm: number;
  /** Down the page: the reader rounds width and height each to whole pixels. */
  readonly px_per_mm_down: number;
  /** Brightness from 0 (black) to 255, row by row from the upper left. */
  readonly grey: Uint8Array;
  /** Whether a pixel bears colour: its three channels differ. */
  readonly coloured: boolean;
  /** Without its very last letter, which this reader drops. */
  readonly text: string;
}

let library: Promise<PDFiumLibrary> | null = null;

/** Pages of a PDF as pictures and text, by PDFium: not the library that writes them. */
export async function renderPdf(bytes: Uint8Array, px_per_mm = 4): Promise<RenderedPage[]> {
  library ??= PDFiumLibrary.init();
  const pdf = await (await library).loadDocument(bytes);
  try {
    const pages: RenderedPage[] = [];
    for (const page of pdf.pages()) {
      const { originalWidth: width_pt, originalHeight: height_pt } = page.getOriginalSize();
      // before it is drawn: the reader gives the page up after that
      const text = page.getText();
      const { data, width, height } = await page.render({ scale: (px_per_mm * 25.4) / 72, render: "bitmap" });
      const grey = new Uint8Array(width * height);
      let coloured = false;
      for (let i = 0; i < grey.length; i++) {
        const [a, b, c] = [data[4 * i]!, data[4 * i + 1]!, data[4 * i + 2]!];
        grey[i] = (a + b + c) / 3;
        coloured ||= a !== b || b !== c;
      }
      pages.push({
        width_px: width,
        height_px: height,
        width_pt,
        height_pt,
        // the picture has whole pixels
        px_per_mm: width / ((width_pt * 25.4) / 72),
        px_per_mm_down: height / ((height_pt * 25.4) / 72),
        grey,
        coloured,
        text,
      });
    }
    return pages;
  } finally {
    pdf.destroy();
  }
}

/** Where a row or column of pixels goes from light to dark and back, mm along it, each stretch of ink as [from, to]. */
export function inkAlong(
  page: RenderedPage,
  way: "across" | "down",
  at_mm: number,
  from_mm = 0,
  to_mm = Number.POSITIVE_INFINITY,
): [number, number][] {
  const length = way === "across" ? page.width_px : page.height_px;
  const [along, aside] =
    way === "across" ? [page.px_per_mm, page.px_per_mm_down] : [page.px_per_mm_down, page.px_per_mm];
  const fixed = Math.round(at_mm * aside);
  const greyAt = (i: number) =>
    page.grey[way === "across" ? fixed * page.width_px + i : i * page.width_px + fixed] ?? 255;
  const stretches: [number, number][] = [];
  let dark = false;
  for (let i = Math.round(from_mm * along); i < Math.min(length, to_mm * along); i++) {
    const grey = greyAt(i);
    const edge_mm = i / along;
    if (grey < 128 && !dark) stretches.push([edge_mm, edge_mm]);
    if (grey < 128) stretches[stretches.length - 1]![1] = (i + 1) / along;
    dark = grey < 128;
  }
  return stretches;
}
