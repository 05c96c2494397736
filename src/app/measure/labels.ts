export interface Label {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const LETTER_px = 8.4;
const PADDING_px = 18;
const HEIGHT_px = 28;
const AWAY_px = 34;
const GAP_px = 4;
const MARGIN_px = 6;

/**
 * Where labels stand, px of the view: each up and to the right of its place, lower where another stands already, within
 * the view. In the order of the places.
 */
export function placeLabels(
  places: readonly { readonly at: { readonly x: number; readonly y: number }; readonly letters: number }[],
  width: number,
  height: number,
): Label[] {
  const placed: Label[] = [];
  for (const { at, letters } of places) {
    const size = { width: letters * LETTER_px + PADDING_px, height: HEIGHT_px };
    const x = Math.min(Math.max(at.x + AWAY_px, MARGIN_px), width - size.width - MARGIN_px);
    let y = Math.min(Math.max(at.y - AWAY_px - HEIGHT_px, MARGIN_px), height - HEIGHT_px - MARGIN_px);
    for (let tries = 0; tries <= placed.length; tries++) {
      const other = placed.find((label) => overlaps(label, { x, y, ...size }));
      if (!other) break;
      y = other.y + other.height + GAP_px;
    }
    placed.push({ x, y, ...size });
  }
  return placed;
}

function overlaps(a: Label, b: Label): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}
