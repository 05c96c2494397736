/** A point of a flat drawing, mm: u to the right, v up. */
export type Flat = readonly [u: number, v: number];

/** A corner of a ring and the side that leaves it: straight for a bulge of 0, else an arc of tan(quarter of its angle), positive counter-clockwise. */
export interface Corner {
  readonly at: Flat;
  readonly bulge: number;
}

export interface Circle {
  readonly kind: "circle";
  readonly centre: Flat;
  readonly diameter_mm: number;
}
/** Closed; the last corner's side leads back to the first. */
export interface Ring {
  readonly kind: "ring";
  readonly corners: readonly Corner[];
}
export interface Line {
  readonly kind: "line";
  readonly points: readonly Flat[];
}
export type Stroke = Circle | Ring | Line;

export interface Words {
  /** Left end of the baseline. */
  readonly at: Flat;
  readonly height_mm: number;
  /** Counter-clockwise from u. */
  readonly turn_deg: number;
  readonly text: string;
}

/**
 * What a cutter does with a stroke: `cut` through, `fold` along its middle, `etch` lightly. `note` is read by people and never
 * touches the steel.
 */
export const LAYERS = ["cut", "fold", "etch", "note"] as const;
export type Layer = (typeof LAYERS)[number];

/** One template, full size. */
export interface Drawing {
  readonly strokes: Readonly<Record<Layer, readonly Stroke[]>>;
  readonly words: Readonly<Record<"etch" | "note", readonly Words[]>>;
}

export interface Box {
  readonly min: Flat;
  readonly max: Flat;
}

/** How wide letters are for their height, roughly, in plain faces. */
const WIDTH_PER_HEIGHT = 0.8;

export function widthOf({ text, height_mm }: Pick<Words, "text" | "height_mm">): number {
  return text.length * height_mm * WIDTH_PER_HEIGHT;
}

/** Everything drawn; texts by their rough width. */
export function boxOf(drawing: Drawing): Box {
  const points = LAYERS.flatMap((layer) => drawing.strokes[layer].flatMap(outermost));
  for (const words of [...drawing.words.etch, ...drawing.words.note]) points.push(...cornersOf(words));
  return boxAround(points);
}

export function boxAround(points: readonly Flat[]): Box {
  const min: [number, number] = [Infinity, Infinity];
  const max: [number, number] = [-Infinity, -Infinity];
  for (const [u, v] of points) {
    min[0] = Math.min(min[0], u);
    min[1] = Math.min(min[1], v);
    max[0] = Math.max(max[0], u);
    max[1] = Math.max(max[1], v);
  }
  return { min, max };
}

/** Where a text stands, as four corners. */
export function cornersOf(words: Words): Flat[] {
  const turn = (words.turn_deg * Math.PI) / 180;
  const [width, height] = [widthOf(words), words.height_mm];
  return (
    [
      [0, 0],
      [width, 0],
      [width, height],
      [0, height],
    ] as const
  ).map(
    ([a, b]): Flat => [
      words.at[0] + a * Math.cos(turn) - b * Math.sin(turn),
      words.at[1] + a * Math.sin(turn) + b * Math.cos(turn),
    ],
  );
}

function outermost(stroke: Stroke): readonly Flat[] {
  if (stroke.kind === "line") return stroke.points;
  if (stroke.kind === "circle") {
    const { centre, diameter_mm } = stroke;
    const r = diameter_mm / 2;
    return [
      [centre[0] - r, centre[1] - r],
      [centre[0] + r, centre[1] + r],
    ];
  }
  return polygonOf(stroke, 0.01);
}

/** The circle that an arc from a to b lies on. */
export function arcOf(a: Flat, b: Flat, bulge: number) {
  const [du, dv] = [b[0] - a[0], b[1] - a[1]];
  const chord = Math.hypot(du, dv);
  const angle = 4 * Math.atan(bulge);
  const radius_mm = chord / (2 * Math.sin(Math.abs(angle) / 2));
  // from the middle of the chord to the left by the apothem, which changes sign past a half circle
  const left = (chord / 2) * ((1 - bulge * bulge) / (2 * bulge));
  const centre: Flat = [(a[0] + b[0]) / 2 - (dv / chord) * left, (a[1] + b[1]) / 2 + (du / chord) * left];
  const from = Math.atan2(a[1] - centre[1], a[0] - centre[0]);
  return { centre, radius_mm, from, angle };
}

/** Corners on the ring, arcs stepped so that no chord is farther than `sag_mm` from its arc. */
export function polygonOf({ corners }: Ring, sag_mm: number): Flat[] {
  return corners.flatMap(({ at, bulge }, i): Flat[] => {
    if (bulge === 0) return [at];
    const { centre, radius_mm, from, angle } = arcOf(at, corners[(i + 1) % corners.length]!.at, bulge);
    const widest = 2 * Math.acos(Math.max(0, 1 - sag_mm / radius_mm));
    const steps = Math.max(1, Math.ceil(Math.abs(angle) / widest));
    return Array.from({ length: steps }, (_, k): Flat => {
      if (k === 0) return at;
      const a = from + (k * angle) / steps;
      return [centre[0] + radius_mm * Math.cos(a), centre[1] + radius_mm * Math.sin(a)];
    });
  });
}

/** Distance from a point to the nearest place of the ring, mm, arcs exact. */
export function distanceToRing(p: Flat, { corners }: Ring): number {
  let nearest = Infinity;
  for (const [i, { at, bulge }] of corners.entries()) {
    const to = corners[(i + 1) % corners.length]!.at;
    nearest = Math.min(nearest, bulge === 0 ? distanceToSide(p, at, to) : distanceToArc(p, at, to, bulge));
  }
  return nearest;
}

export function distanceToSide(p: Flat, a: Flat, b: Flat): number {
  const [du, dv] = [b[0] - a[0], b[1] - a[1]];
  const along = ((p[0] - a[0]) * du + (p[1] - a[1]) * dv) / (du * du + dv * dv);
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(p[0] - a[0] - t * du, p[1] - a[1] - t * dv);
}

function distanceToArc(p: Flat, a: Flat, b: Flat, bulge: number): number {
  const { centre, radius_mm, from, angle } = arcOf(a, b, bulge);
  const at = Math.atan2(p[1] - centre[1], p[0] - centre[0]);
  const turned = (((angle > 0 ? at - from : from - at) % TURN) + TURN) % TURN;
  if (turned <= Math.abs(angle)) return Math.abs(Math.hypot(p[0] - centre[0], p[1] - centre[1]) - radius_mm);
  return Math.min(Math.hypot(p[0] - a[0], p[1] - a[1]), Math.hypot(p[0] - b[0], p[1] - b[1]));
}

const TURN = 2 * Math.PI;

const NOTE_HEIGHT_mm = 3;
const NOTE_STEP_mm = 4.8;
const NOTE_GAP_mm = 8;

/** The drawing with lines of text below it, which nothing cuts. */
export function withNotes(drawing: Drawing, lines: readonly string[]): Drawing {
  const { min } = boxOf(drawing);
  const under = lines.map((text, i): Words => {
    const at: Flat = [min[0], min[1] - NOTE_GAP_mm - i * NOTE_STEP_mm];
    return { text, height_mm: NOTE_HEIGHT_mm, turn_deg: 0, at };
  });
  return { ...drawing, words: { ...drawing.words, note: [...drawing.words.note, ...under] } };
}

/** Nothing but what is done to the steel. */
export function withoutNotes(drawing: Drawing): Drawing {
  return { strokes: { ...drawing.strokes, note: [] }, words: { ...drawing.words, note: [] } };
}

/** Several drawings as one, side by side. */
export function inARow(drawings: readonly Drawing[], gap_mm = 20): Drawing {
  let right = 0;
  const placed = drawings.map((drawing) => {
    const { min, max } = boxOf(drawing);
    const moved = movedBy(drawing, [right - min[0], -min[1]]);
    right += max[0] - min[0] + gap_mm;
    return moved;
  });
  const strokes = (layer: Layer) => placed.flatMap((drawing) => drawing.strokes[layer]);
  return {
    strokes: { cut: strokes("cut"), fold: strokes("fold"), etch: strokes("etch"), note: strokes("note") },
    words: {
      etch: placed.flatMap(({ words }) => words.etch),
      note: placed.flatMap(({ words }) => words.note),
    },
  };
}

/** A drawing moved, for several on one sheet. */
function movedBy(drawing: Drawing, [du, dv]: Flat): Drawing {
  const at = ([u, v]: Flat): Flat => [u + du, v + dv];
  const stroke = (s: Stroke): Stroke => {
    if (s.kind === "line") return { ...s, points: s.points.map(at) };
    if (s.kind === "circle") return { ...s, centre: at(s.centre) };
    return { ...s, corners: s.corners.map((corner) => ({ ...corner, at: at(corner.at) })) };
  };
  const words = (list: readonly Words[]) => list.map((each) => ({ ...each, at: at(each.at) }));
  const { cut, fold, etch, note } = drawing.strokes;
  return {
    strokes: { cut: cut.map(stroke), fold: fold.map(stroke), etch: etch.map(stroke), note: note.map(stroke) },
    words: { etch: words(drawing.words.etch), note: words(drawing.words.note) },
  };
}
