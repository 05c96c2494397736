import { fixed } from "./lettering.ts";
import type { Flat } from "./view.ts";

/** Arrowhead of a dimension line, mm on paper; slender and filled (as ISO 129-1 shows them). */
export const ARROW_mm = { length: 2.4, half: 0.42 } as const;

/** A filled arrowhead with its tip at `tip`, pointing along `way` (unit). */
export function arrow(tip: Flat, way: Flat, colour: string): string {
  const { length, half } = ARROW_mm;
  const foot = { x: tip.x - way.x * length, y: tip.y - way.y * length };
  const points = [
    tip,
    { x: foot.x - way.y * half, y: foot.y + way.x * half },
    { x: foot.x + way.y * half, y: foot.y - way.x * half },
  ];
  return `<path d="M${points.map(({ x, y }) => `${fixed(x)} ${fixed(y)}`).join("L")}Z" fill="${colour}"/>`;
}

export interface LineLook {
  readonly colour: string;
  readonly width?: number;
  readonly dashed?: boolean;
  /** White along both sides, so that it can be seen over anything. */
  readonly halo?: boolean;
}

export function line(
  points: readonly Flat[],
  { colour, width = 0.22, dashed = false, halo = false }: LineLook,
): string {
  const path = `M${points.map(({ x, y }) => `${fixed(x)} ${fixed(y)}`).join("L")}`;
  const dash = dashed ? ' stroke-dasharray="1.4 0.9"' : "";
  const under = halo ? `<path d="${path}" fill="none" stroke="#ffffff" stroke-width="${fixed(width + 0.7)}"/>` : "";
  return `${under}<path d="${path}" fill="none" stroke="${colour}" stroke-width="${fixed(width)}"${dash}/>`;
}

export function between(a: Flat, b: Flat, share: number): Flat {
  return { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share };
}

/** Unit way from one place to another; to the right where they are one. */
export function wayFrom(a: Flat, b: Flat): Flat {
  const far = Math.hypot(b.x - a.x, b.y - a.y);
  return far > 1e-9 ? { x: (b.x - a.x) / far, y: (b.y - a.y) / far } : { x: 1, y: 0 };
}
