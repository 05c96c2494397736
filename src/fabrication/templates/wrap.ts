import { add, scale } from "../../maths/vec3.ts";
import type { Corner, Drawing, Flat, Line, Words } from "./drawing.ts";
import type { OnSides } from "./flatPart.ts";
import { meetingAngle, reachOf, wallWay } from "./mitre.ts";
import type { FittedEnd } from "./tubeEnds.ts";
import { type Looks, looksTo, type TemplateWords, type ZeroIs } from "./words.ts";

/** One end of a tube as paper that is wrapped about it: across the paper around the tube, up the paper along it to its end. */
export interface WrapPart {
  readonly kind: "wrap";
  /** "post last end right" */
  readonly id: string;
  readonly of: string;
  /** The tube's own name, and the end of its path. */
  readonly tube: string;
  readonly which: "first" | "last";
  /** null: one paper serves as it is drawn, on both sides where there are two. */
  readonly side: "left" | "right" | null;
  readonly sides: OnSides;
  readonly diameter_mm: number;
  readonly wall_mm: number | null;
  readonly fittedTo: readonly { readonly of: string; readonly angle_deg: number }[];
  /** Around the outside, 0 to its whole girth, and along the tube from its drawn end, mm, negative short of it. */
  readonly cut: readonly Flat[];
  /** The paper's straight edge, along the tube from its drawn end. */
  readonly edge_mm: number;
  /** What lies along the lines at 0, 90, 180 and 270 degrees. */
  readonly lines: readonly [ZeroIs, Looks, Looks, Looks];
  /** Straight edges of the papers of both ends apart; null: the tube is bent, or its other end meets nothing. */
  readonly edgesApart_mm: number | null;
  readonly warnings: readonly WrapWarning[];
}

/** `passes`: the tube is wider than what it meets. `overhangs`: it reaches past the edge of what it meets. */
export type WrapWarning = "passes" | "overhangs";

/** An end that a straight saw cut fits. */
export interface SquareEnd {
  readonly id: string;
  readonly of: string;
  readonly tube: string;
  readonly which: "first" | "last";
  readonly fittedTo: readonly string[];
  /** Along the tube from its drawn end, negative short of it. */
  readonly along_mm: number;
}

/** A sample every degree: chords of the widest tubes that are wrapped stand off the curve by far less than a pencil line. */
const PLACES = 360;
/** A cut that is square within this is sawn straight, mm; so near must two halves be to be alike. */
const SAME_mm = 0.05;
/** Paper below the deepest place of the cut. */
const HOLD_mm = 35;
const TAB_mm = 8;

/** The papers for fitted ends, and the ends that need none. */
export function wrapsOf(ends: readonly FittedEnd[]): { wraps: WrapPart[]; square: SquareEnd[] } {
  const wraps: WrapPart[] = [];
  const square: SquareEnd[] = [];
  const edges = new Map(ends.map((end) => [end, developed(end)]));
  for (const end of ends) {
    const { cut, low, high, edge_mm, warnings } = edges.get(end)!;
    const id = `${end.tube} ${end.which} end`;
    if (high - low < SAME_mm) {
      square.push({
        id,
        of: end.of,
        tube: end.tube,
        which: end.which,
        fittedTo: end.met.map(({ of }) => of),
        along_mm: low,
      });
      continue;
    }
    const other = end.isStraight ? ends.find((one) => one.tube === end.tube && one !== end) : undefined;
    const common = {
      kind: "wrap" as const,
      of: end.of,
      tube: end.tube,
      which: end.which,
      sides: end.sides,
      diameter_mm: end.diameter_mm,
      wall_mm: end.wall_mm,
      fittedTo: end.met.map((meets) => ({ of: meets.of, angle_deg: meetingAngle(end.end, meets) })),
      edge_mm,
      edgesApart_mm: other ? end.length_mm + edge_mm + edges.get(other)!.edge_mm : null,
      warnings,
    };
    const lines = linesOf(end);
    const image = mirrored(cut);
    const isEven = cut.every(([, along], i) => Math.abs(along - image[i]![1]) < SAME_mm);
    if (end.sides === "one" || isEven) wraps.push({ ...common, id, side: null, cut, lines });
    else {
      wraps.push({ ...common, id: `${id} left`, side: "left", cut, lines });
      const [zero, quarter, half, last] = lines;
      wraps.push({ ...common, id: `${id} right`, side: "right", cut: image, lines: [zero, last, half, quarter] });
    }
  }
  return { wraps, square };
}

function developed({ end, diameter_mm, length_mm, met }: FittedEnd) {
  let passes = false;
  let overhangs = false;
  const cut = Array.from({ length: PLACES + 1 }, (_, i): Flat => {
    const turn_rad = (2 * Math.PI * i) / PLACES;
    const reaches = met.map((meets) => ({ meets, reach: reachOf(end, meets, turn_rad) }));
    const first = reaches.reduce((a, b) => (b.reach.along_mm < a.reach.along_mm ? b : a));
    const { along_mm } = first.reach;
    passes ||= first.reach.passes;
    const wall = add(end.at, scale(wallWay(end, turn_rad), end.radius_mm));
    overhangs ||= !first.reach.passes && !first.meets.isOn(add(wall, scale(end.out, along_mm)));
    return [(Math.PI * diameter_mm * i) / PLACES, along_mm];
  });
  const alongs = cut.map(([, along]) => along);
  const [low, high] = [Math.min(...alongs), Math.max(...alongs)];
  const warnings: WrapWarning[] = [];
  if (passes) warnings.push("passes");
  if (overhangs) warnings.push("overhangs");
  // a whole millimetre, so that it can be measured from
  const edge_mm = Math.floor(low - Math.min(HOLD_mm, length_mm / 2));
  return { cut, low, high, edge_mm, warnings };
}

/** The other side of the car: the same around the other way. */
function mirrored(cut: readonly Flat[]): Flat[] {
  return cut.map(([around], i) => [around, cut[cut.length - 1 - i]![1]]);
}

function linesOf({ end, sides, zeroIs }: FittedEnd): WrapPart["lines"] {
  const way = (quarter: number) => looksTo(wallWay(end, (quarter * Math.PI) / 2), sides === "both");
  return [zeroIs, way(1), way(2), way(3)];
}

/** The paper at full size. */
export function wrapDrawing(wrap: WrapPart, words: TemplateWords): Drawing {
  const girth = Math.PI * wrap.diameter_mm;
  const { cut, edge_mm } = wrap;
  const seam = cut[0]![1];
  const corner = (at: Flat): Corner => ({ at, bulge: 0 });
  const lean = Math.min(3, (seam - edge_mm) / 4);
  const ring = [
    corner([0, edge_mm]),
    corner([girth, edge_mm]),
    corner([girth + TAB_mm, edge_mm + lean]),
    corner([girth + TAB_mm, seam - lean]),
    ...[...cut].reverse().map(corner),
  ];
  const quarters = [0, 1, 2, 3, 4].map((quarter): Line => {
    const around = (girth * quarter) / 4;
    return {
      kind: "line",
      points: [
        [around, edge_mm],
        [around, cut[(PLACES * quarter) / 4]![1]],
      ],
    };
  });
  const lines = wrap.lines.map((line, quarter): Words => {
    const around = (girth * quarter) / 4;
    return { text: words.lines[line], height_mm: 2.5, turn_deg: 90, at: [around + 3.2, edge_mm + 2] };
  });
  return {
    strokes: { cut: [{ kind: "ring", corners: ring }], fold: [], etch: [], note: quarters },
    words: { etch: [], note: lines },
  };
}
