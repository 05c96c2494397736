import type { BarSize } from "./bars.ts";
import type { CutPiece, CutSetting } from "./cutList.ts";

export interface StockLine {
  readonly size: BarSize;
  readonly material: string | null;
  readonly pieces: number;
  /** All pieces and the saw cuts between them. */
  readonly long_mm: number;
  /** What is cut from each bar that is bought, longest first, mm; empty where their length is not told. */
  readonly bars: readonly (readonly number[])[];
  /** Pieces longer than a bar. */
  readonly tooLong: number;
}

/**
 * How much of each size is wanted. Pieces are laid into bars first fit, longest first, each with a saw cut: never more than 11/9 of the fewest
 * bars and 2/3 of one (Dósa, 2007, on first fit decreasing).
 */
export function stockOf(pieces: readonly CutPiece[], { saw_mm, stock_mm }: CutSetting): StockLine[] {
  const groups = new Map<string, CutPiece[]>();
  for (const piece of pieces) {
    if (piece.sawn_mm === null || piece.sawn_mm <= 0) continue;
    const key = JSON.stringify([piece.size, piece.material]);
    groups.set(key, [...(groups.get(key) ?? []), piece]);
  }
  return [...groups.values()].map((group) => {
    const lengths = group
      .flatMap(({ sawn_mm, count }) => Array.from({ length: count }, () => sawn_mm!))
      .sort((a, b) => b - a);
    const fitting = stock_mm === null ? [] : lengths.filter((piece) => piece <= stock_mm);
    const bars: { cut: number[]; left_mm: number }[] = [];
    for (const piece of fitting) {
      let bar = bars.find(({ left_mm }) => left_mm >= piece);
      if (!bar) {
        bar = { cut: [], left_mm: stock_mm! };
        bars.push(bar);
      }
      bar.cut.push(piece);
      bar.left_mm -= piece + saw_mm;
    }
    return {
      size: group[0]!.size,
      material: group[0]!.material,
      pieces: lengths.length,
      long_mm: lengths.reduce((sum, piece) => sum + piece + saw_mm, 0),
      bars: bars.map(({ cut }) => cut),
      tooLong: stock_mm === null ? 0 : lengths.length - fitting.length,
    };
  });
}
