import { type Box, boxAround, type Drawing, type Flat, type Line, polygonOf, type Words, widthOf } from "./drawing.ts";
import type { FlatPart } from "./flatPart.ts";
import { freeMiddle, freeSpot } from "./freeSpot.ts";
import type { TemplateWords } from "./words.ts";

const CENTRE_MARK_mm = 3;
const NOTE_HEIGHT_mm = 3;
const ARROW_mm = 10;

/** A plate at full size: its edge and holes to cut, folds, its name to etch, centres and where bends begin to go by. */
export function plateDrawing(part: FlatPart, words: TemplateWords): Drawing {
  const name = freeSpot(part, part.id);
  const box = boxAround(polygonOf(part.outline, 0.05));
  const arrow = arrowOf(part, box, name, words);
  const centres = part.holes.flatMap((hole) => (hole.kind === "circle" ? crossAt(hole.centre) : []));
  const bends = part.folds.flatMap(({ from, to, allowance_mm }): Line[] => {
    const across = unitAcross(from, to);
    return [-1, 1].map((sign) => ({
      kind: "line",
      points: [from, to].map(
        ([u, v]): Flat => [u + (sign * allowance_mm * across[0]) / 2, v + (sign * allowance_mm * across[1]) / 2],
      ),
    }));
  });
  return {
    strokes: {
      cut: [part.outline, ...part.holes],
      fold: part.folds.map(({ from, to }): Line => ({ kind: "line", points: [from, to] })),
      etch: [],
      note: [...centres, ...bends, ...(arrow?.strokes ?? [])],
    },
    words: {
      etch: name ? [name] : [],
      note: [...(arrow ? [arrow.words] : []), ...numbers(part)],
    },
  };
}

/** Which hole and which fold the notes speak of. */
function numbers({ holes, folds }: FlatPart): Words[] {
  const round = holes.filter((hole) => hole.kind === "circle");
  const number = (i: number, at: Flat): Words => ({ text: String(i + 1), height_mm: 2.5, turn_deg: 0, at });
  return [
    ...(round.length > 1
      ? round.map(({ centre: [u, v], diameter_mm: d }, i) => number(i, [u + 0.36 * d + 1, v + 0.36 * d + 1]))
      : []),
    ...folds.map(({ to: [u, v] }, i) => number(i, [u - 0.8, v + 1.5])),
  ];
}

function crossAt([u, v]: Flat): Line[] {
  return [
    {
      kind: "line",
      points: [
        [u - CENTRE_MARK_mm, v],
        [u + CENTRE_MARK_mm, v],
      ],
    },
    {
      kind: "line",
      points: [
        [u, v - CENTRE_MARK_mm],
        [u, v + CENTRE_MARK_mm],
      ],
    },
  ];
}

function unitAcross(from: Flat, to: Flat): Flat {
  const [du, dv] = [to[0] - from[0], to[1] - from[1]];
  const run = Math.hypot(du, dv);
  return [dv / run, -du / run];
}

/** An arrow to what is up in the car, or forward where the plate lies flat: on the plate, or beside it where that has no room. */
function arrowOf(
  part: FlatPart,
  { min, max }: Box,
  name: Words | null,
  said: TemplateWords,
): { strokes: Line[]; words: Words } | null {
  if (!part.stands) return null;
  const { u, v } = part.stands;
  const up: Flat = [u[2], v[2]];
  const isUp = Math.hypot(...up) > 0.5;
  const way: Flat = isUp ? up : [u[0], v[0]];
  const run = Math.hypot(...way);
  const [du, dv] = [way[0] / run, way[1] / run];
  const text = isUp ? said.up : said.forward;
  const [wide, high] = [
    Math.max(ARROW_mm, widthOf({ text, height_mm: NOTE_HEIGHT_mm })),
    ARROW_mm + NOTE_HEIGHT_mm + 1,
  ];
  const middle = freeMiddle(part, wide, high, name) ?? [max[0] + 4 + wide / 2, (min[1] + max[1]) / 2];
  // the word below the arrow
  const centre: Flat = [middle[0], middle[1] + (high - ARROW_mm) / 2];
  const tip: Flat = [centre[0] + (du * ARROW_mm) / 2, centre[1] + (dv * ARROW_mm) / 2];
  const tail: Flat = [centre[0] - (du * ARROW_mm) / 2, centre[1] - (dv * ARROW_mm) / 2];
  const barb = (side: number): Flat => [tip[0] - 3 * du - side * 1.3 * dv, tip[1] - 3 * dv + side * 1.3 * du];
  return {
    strokes: [
      { kind: "line", points: [tail, tip] },
      { kind: "line", points: [barb(1), tip, barb(-1)] },
    ],
    words: { text, height_mm: NOTE_HEIGHT_mm, turn_deg: 0, at: [middle[0] - wide / 2, middle[1] - high / 2] },
  };
}
