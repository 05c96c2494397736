import { MM_PER_INCH } from "./length.ts";

/** Less than this is not told from the stud or the hook standing wrong. */
const LEAST_MM = 5;

/**
 * Lengths that a common slip would turn into the typed one, mm: one figure of the tens or hundreds read or typed wrong, two
 * neighbouring figures swapped, a hundred "burnt" off the hook and not taken off again, an inch or a foot miscounted. Common
 * practice, no source.
 */
export function slipsOf(typed_mm: number): number[] {
  const slips = new Set<number>();
  for (const place of [10, 100, 1000]) {
    if (place > typed_mm * 10) continue;
    const figure = Math.floor(typed_mm / place) % 10;
    for (let other = 0; other < 10; other++) slips.add(typed_mm + (other - figure) * place);
  }
  for (const place of [1, 10, 100]) {
    const [low, high] = [Math.floor(typed_mm / place) % 10, Math.floor(typed_mm / (place * 10)) % 10];
    if (typed_mm >= place * 10) slips.add(typed_mm + (low - high) * place * 9);
  }
  for (const off of [10, 100, MM_PER_INCH, 12 * MM_PER_INCH]) {
    slips.add(typed_mm + off);
    slips.add(typed_mm - off);
  }
  return [...slips].filter((mm) => mm > 0 && Math.abs(mm - typed_mm) >= LEAST_MM);
}
