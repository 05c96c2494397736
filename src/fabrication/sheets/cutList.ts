import { distance, dot, length, normalise, scale, squareTo, subtract, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { resolveScene } from "../../scene/resolve.ts";
import type { Scene } from "../../scene/scene.ts";
import type { TubeEnd } from "../../scene/tubeEnds.ts";
import { type BarJoint, type BarSize, type DrawnBar, drawnBars, isOfTube } from "./bars.ts";
import { barBetween, copeTo } from "./copes.ts";
import { type Count, countedParts } from "./counts.ts";
import { densityOf } from "./density.ts";
import { type StockLine, stockOf } from "./stock.ts";
import { type ThreadEnd, threadEnd, threadName } from "./threadEnd.ts";

export interface CutSetting {
  /** Width of a saw cut. */
  readonly saw_mm: number;
  /** Left on each end for dressing. */
  readonly trim_mm: number;
  /** Length of the bars as they are bought; null: only the sum is told. */
  readonly stock_mm: number | null;
}

/** A chop saw's disc takes about that: common practice, no source. */
export const USUAL_CUT: CutSetting = { saw_mm: 2, trim_mm: 0, stock_mm: null };

/** How an end is cut, and how far before the joint's centre, or the end of the drawn centre line, its longest and shortest side lie. */
export interface EndCut {
  readonly how: "rod end" | "sleeve" | "square" | "coped" | "mitred" | "unknown";
  /** The joint, or the part that it is coped to; empty: none. */
  readonly at: string;
  readonly longest_mm: number;
  readonly shortest_mm: number;
  /** Between the axes of a cope; between the cut and square of a mitre. */
  readonly angle_deg: number | null;
  readonly thread: (ThreadEnd & { readonly name: string }) | null;
}

export interface CutPiece {
  readonly number: number;
  readonly part: string;
  readonly what: DrawnBar["what"];
  readonly count: number;
  readonly size: BarSize;
  readonly material: string | null;
  /** Straight from joint to joint; null: it ends in none. */
  readonly eyeToEye_mm: number | null;
  /** Along the centre line where it is bent: its straights and the arcs of its bends. */
  readonly bends: readonly { readonly radius_mm: number; readonly angle_deg: number }[];
  readonly ends: readonly [EndCut, EndCut];
  /** From longest side to longest side; null: an end is not told of. */
  readonly cut_mm: number | null;
  /** What its copes and mitres take off that, both ends together. */
  readonly mitre_mm: number;
  /** What is sawn off the bar: the cut length and the trim of both ends. */
  readonly sawn_mm: number | null;
  /** How much longer and shorter its threads can make it from eye to eye; null: no thread. */
  readonly adjust_mm: { readonly longer: number; readonly shorter: number } | null;
  /** Of one, as cut; null: size or length not told. */
  readonly mass_kg: number | null;
}

/** What the list cannot tell. Codes; `cutListWords.ts` has the sentences. */
export type CutFault =
  | { readonly code: "end" | "thread-short" | "thread-set"; readonly joint: string }
  | { readonly code: "size" | "no-room" | "no-tube"; readonly part: string };

export interface CutList {
  readonly pieces: readonly CutPiece[];
  readonly stock: readonly StockLine[];
  readonly counts: readonly Count[];
  readonly faults: readonly CutFault[];
}

/**
 * What is cut, and what is counted out, for the scene: lengths from the drawn points (parts keep them however their mounts are bolted up).
 * Throws InputError as resolving does.
 */
export function cutListOf(document: SceneDocument, setting: CutSetting = USUAL_CUT): CutList {
  const scene = resolveScene(document);
  const ends = new Map((document.tubeEnds ?? []).map((end) => [end.joint, end]));
  const bars = drawnBars(scene, (joint) => ends.has(joint)).flatMap(straightened);
  const pieces = bars.map((bar, i) => pieceOf(bar, i, bars, ends, scene, setting));
  return {
    pieces,
    stock: stockOf(pieces, setting),
    counts: countedParts(document, scene, ends),
    faults: [...faultsOf(pieces), ...leftOut(scene)],
  };
}

/** A bar mitred at its corners is as many pieces as it has straights. */
function straightened(bar: DrawnBar): DrawnBar[] {
  if (bar.bend_mm !== null || bar.path.length === 2) return [bar];
  return bar.path.slice(1).map((to, i) => {
    const joints: DrawnBar["joints"] = [
      i === 0 ? bar.joints[0] : null,
      i === bar.path.length - 2 ? bar.joints[1] : null,
    ];
    return { ...bar, path: [bar.path[i]!, to], joints };
  });
}

function pieceOf(
  bar: DrawnBar,
  index: number,
  bars: readonly DrawnBar[],
  told: ReadonlyMap<string, TubeEnd>,
  scene: Scene,
  { trim_mm }: CutSetting,
): CutPiece {
  const { path, joints, size, material } = bar;
  const [first, last] = [path[0]!, path.at(-1)!];
  const at = (end: 0 | 1): EndCut => {
    const place = end === 0 ? first : last;
    const way = normalise(subtract(place, end === 0 ? path[1]! : path.at(-2)!));
    const joint = joints[end];
    return joint ? jointEnd(joint, told.get(joint.name), place, way, size) : freeEnd(index, place, way, bars);
  };
  const ends = [at(0), at(1)] as const;
  const { long_mm, bends } = developed(bar);
  const isTold = ends.every(({ how }) => how !== "unknown");
  const cut_mm = isTold ? long_mm - ends[0].longest_mm - ends[1].longest_mm : null;
  const mitre_mm = ends.reduce((sum, { longest_mm, shortest_mm }) => sum + shortest_mm - longest_mm, 0);
  const threads = ends.flatMap(({ thread }) => (thread ? [thread] : []));
  const area = areaOf(size);
  return {
    number: index + 1,
    part: bar.part,
    what: bar.what,
    count: bar.count,
    size,
    material,
    eyeToEye_mm: joints[0] && joints[1] ? distance(first, last) : null,
    bends,
    ends,
    cut_mm,
    mitre_mm,
    sawn_mm: cut_mm === null ? null : cut_mm + 2 * trim_mm,
    adjust_mm:
      threads.length === 0
        ? null
        : {
            longer: threads.reduce((sum, { longer_mm }) => sum + longer_mm, 0),
            shorter: threads.reduce((sum, { shorter_mm }) => sum + shorter_mm, 0),
          },
    // a slanting end takes half of what lies between its sides; copes a little less
    mass_kg:
      cut_mm === null || area === null
        ? null
        : area * (cut_mm - mitre_mm / 2) * densityOf(material, scene.loads.materials) * 1e-9,
  };
}

function jointEnd(joint: BarJoint, end: TubeEnd | undefined, place: Vec3, way: Vec3, size: BarSize): EndCut {
  const none = { at: joint.name, longest_mm: 0, shortest_mm: 0, angle_deg: null, thread: null };
  if (!end) return { ...none, how: "unknown" };
  if (end.kind === "square") return { ...none, how: "square", longest_mm: end.short_mm, shortest_mm: end.short_mm };
  if (end.kind === "rod end") {
    const thread = threadEnd(end);
    const { reach_mm } = thread;
    return {
      ...none,
      how: "rod end",
      longest_mm: reach_mm,
      shortest_mm: reach_mm,
      thread: { ...thread, name: threadName(end) },
    };
  }
  const radius = size.kind === "round" ? (size.diameter_mm ?? 0) / 2 : 0;
  // a bolt that nobody told of lies square to the tube
  const axis = joint.axis ?? squareTo(way);
  const cope = copeTo({ at: place, axis, radius_mm: end.outside_mm / 2 }, place, way, radius);
  return cope ? { ...none, ...cope, how: "sleeve" } : { ...none, how: "square" };
}

/** Coped to another round bar, or mitred with the next straight of its own, where it runs into one; square where it runs into none. */
function freeEnd(index: number, place: Vec3, way: Vec3, bars: readonly DrawnBar[]): EndCut {
  const none = { at: "", longest_mm: 0, shortest_mm: 0, angle_deg: null, thread: null };
  const bar = bars[index]!;
  const { size } = bar;
  if (size.kind !== "round" || size.diameter_mm === null) return { ...none, how: "square" };
  const radius = size.diameter_mm / 2;
  for (const step of [-1, 1]) {
    const next = bars[index + step];
    if (!next || next.part !== bar.part || next.size !== bar.size) continue;
    const other = step === 1 ? next.path[0]! : next.path.at(-1)!;
    if (distance(other, place) > 1e-6) continue;
    const onward = normalise(subtract(step === 1 ? next.path.at(-1)! : next.path[0]!, place));
    const angle = Math.acos(Math.max(-1, Math.min(1, dot(way, onward)))) / 2;
    const slant = radius * Math.tan(angle);
    return {
      ...none,
      how: "mitred",
      at: bar.part,
      longest_mm: -slant,
      shortest_mm: slant,
      angle_deg: (angle * 180) / Math.PI,
    };
  }
  for (const [i, other] of bars.entries()) {
    if (i === index || other.part === bar.part || other.what !== "frame") continue;
    if (other.size.kind !== "round" || other.size.diameter_mm === null) continue;
    const across = other.size.diameter_mm / 2;
    if (!runsInto(place, way, other, across, radius, i < index || across > radius)) continue;
    const cope = copeTo(barBetween(other.path[0]!, other.path[1]!, across), place, way, radius);
    if (cope) return { ...none, ...cope, how: "coped", at: other.part };
  }
  return { ...none, how: "square" };
}

/** Whether the point lies in the other bar (a millimetre for rounding), whose own end it may only be where that one is not coped itself. */
function runsInto(place: Vec3, way: Vec3, other: DrawnBar, across: number, radius: number, isFirst: boolean): boolean {
  const [from, to] = [other.path[0]!, other.path.at(-1)!];
  if (other.path.length !== 2) return false;
  const axis = normalise(subtract(to, from));
  // nearly side by side
  if (Math.abs(dot(axis, way)) > Math.cos(Math.PI / 18)) return false;
  const along = dot(subtract(place, from), axis);
  const off = length(subtract(subtract(place, from), scale(axis, along)));
  if (off > across + 1 || along < -1 || along > distance(from, to) + 1) return false;
  const isItsEnd = Math.min(distance(place, from), distance(place, to)) < across + radius;
  return !isItsEnd || isFirst;
}

/** Length along the centre line: between its corners each bend takes two tangents off and adds its arc. */
function developed({ path, bend_mm }: DrawnBar): { long_mm: number; bends: CutPiece["bends"] } {
  const straight = path.slice(1).reduce((sum, to, i) => sum + distance(path[i]!, to), 0);
  if (bend_mm === null) return { long_mm: straight, bends: [] };
  const bends = path.slice(1, -1).map((corner, i) => {
    const [into, out] = [normalise(subtract(corner, path[i]!)), normalise(subtract(path[i + 2]!, corner))];
    return Math.acos(Math.max(-1, Math.min(1, dot(into, out))));
  });
  const long_mm = bends.reduce((sum, angle) => sum + bend_mm * (angle - 2 * Math.tan(angle / 2)), straight);
  return { long_mm, bends: bends.map((angle) => ({ radius_mm: bend_mm, angle_deg: (angle * 180) / Math.PI })) };
}

/** Of the cross-section, mm²; sections with sharp corners. null: not told. */
export function areaOf(size: BarSize): number | null {
  if (size.wall_mm === null) return null;
  if (size.kind === "section") {
    const inside = (outer: number): number => Math.max(0, outer - 2 * size.wall_mm!);
    return size.height_mm * size.width_mm - inside(size.height_mm) * inside(size.width_mm);
  }
  if (size.diameter_mm === null) return null;
  const inside = Math.max(0, size.diameter_mm - 2 * size.wall_mm);
  return (Math.PI / 4) * (size.diameter_mm ** 2 - inside ** 2);
}

/** Made links that are drawn as something else than tube: not on the list. */
function leftOut({ members }: Scene): CutFault[] {
  return members
    .filter((member) => member.stock === "made" && !isOfTube(member))
    .map(({ id }) => ({ code: "no-tube", part: id }));
}

function faultsOf(pieces: readonly CutPiece[]): CutFault[] {
  const faults = pieces.flatMap(({ part, ends, size, cut_mm }): CutFault[] => [
    ...ends.flatMap(({ how, at, thread }): CutFault[] => {
      if (how === "unknown") return [{ code: "end", joint: at }];
      if (!thread?.fault) return [];
      return [{ code: thread.fault === "short" ? "thread-short" : "thread-set", joint: at }];
    }),
    ...(size.kind === "round" && size.diameter_mm === null ? [{ code: "size" as const, part }] : []),
    ...(cut_mm !== null && cut_mm <= 0 ? [{ code: "no-room" as const, part }] : []),
  ]);
  const told = new Set<string>();
  return faults.filter((fault) => {
    const key = JSON.stringify(fault);
    return !told.has(key) && told.add(key);
  });
}
