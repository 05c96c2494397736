import { CLASH_DEEP, hexOf } from "./colours.ts";
import { fixed } from "./lettering.ts";
import type { Rectangle } from "./page.ts";
import { flatOf, type Projection, type ViewName } from "./view.ts";

const QUIET = "#8a9698";

/** The ground as a line, the car's centre plane and the rear axle line as chain lines, as far as the view has them on edge. */
export function datumLines(view: ViewName, projection: Projection, area: Rectangle): string {
  const origin = flatOf(projection, [0, 0, 0]);
  const across = (y: number, look: string) => stroke(area.x, y, area.x + area.width, y, look, area);
  const upright = (x: number, look: string) => stroke(x, area.y, x, area.y + area.height, look, area);
  const chain = 'stroke-width="0.16" stroke-dasharray="6 1.2 0.8 1.2"';
  const ground = 'stroke-width="0.35"';
  switch (view) {
    case "rear":
    case "front":
      return across(origin.y, ground) + upright(origin.x, chain);
    case "left":
    case "right":
      return across(origin.y, ground) + upright(origin.x, chain);
    case "plan":
    case "below":
      return across(origin.y, chain) + upright(origin.x, chain);
    case "corner":
      return "";
  }
}

function stroke(
  x1: number,
  y1: number,
  x2: number,
  y2: number,
  look: string,
  { x, y, width, height }: Rectangle,
): string {
  const isWithin = x1 >= x && x2 <= x + width + 1e-9 && y1 >= y && y2 <= y + height + 1e-9;
  if (!isWithin) return "";
  return `<path d="M${fixed(x1)} ${fixed(y1)}L${fixed(x2)} ${fixed(y2)}" fill="none" stroke="${QUIET}" ${look}/>`;
}

/** The curves in which surfaces cross, through whatever lies before them. */
export function crossings(curves: readonly Float32Array[], projection: Projection, area: Rectangle): string {
  const paths = curves.map((curve) => {
    const points: string[] = [];
    for (let i = 0; i < curve.length; i += 3) {
      const { x, y } = flatOf(projection, [curve[i]!, curve[i + 1]!, curve[i + 2]!]);
      points.push(`${fixed(x)} ${fixed(y)}`);
    }
    return `M${points.join("L")}`;
  });
  if (paths.length === 0) return "";
  const { x, y, width, height } = area;
  return [
    `<clipPath id="area"><rect x="${fixed(x)}" y="${fixed(y)}" width="${fixed(width)}" height="${fixed(height)}"/></clipPath>`,
    `<path clip-path="url(#area)" d="${paths.join("")}" fill="none" stroke="${hexOf(CLASH_DEEP)}" stroke-width="0.25" stroke-linejoin="round"/>`,
  ].join("");
}
