import type { PairVerdict } from "../check/result.ts";
import { distance, subtract, type Vec3 } from "../maths/vec3.ts";
import type { Side } from "../scene/scene.ts";
import { type Card, cardPairKey, type WheelChange } from "./entry.ts";
import { byGravity } from "./order.ts";

/** Below this a point counts as not moved and a gap as not changed: far finer than steel is set. */
const SAME_MM = 0.005;

export interface CardComparison {
  readonly moved: readonly MovedPoint[];
  readonly pairs: readonly ComparedPair[];
  readonly wheels: readonly ComparedWheel[];
  /** What else differs between the two scenes, by JSON path; points are in `moved`. */
  readonly otherChanges: readonly ChangedValue[];
}

export interface MovedPoint {
  readonly name: string;
  /** Car coordinates, mm; null where the card has no such point. */
  readonly before: Vec3 | null;
  readonly after: Vec3 | null;
  /** after − before; null where one is missing. */
  readonly by: Vec3 | null;
  readonly distance_mm: number | null;
}

export interface ComparedPair {
  readonly key: string;
  readonly side: PairVerdict["side"];
  readonly a: string;
  readonly b: string;
  readonly before: PairVerdict | null;
  readonly after: PairVerdict | null;
  /** Worst clearance after minus before: above 0 is room won; null where one card did not check the pair. */
  readonly won_mm: number | null;
}

export interface ComparedWheel {
  readonly side: Side;
  readonly before: WheelChange | null;
  readonly after: WheelChange | null;
}

export interface ChangedValue {
  readonly path: string;
  readonly before: unknown;
  readonly after: unknown;
}

/** What changed from the card `before` to the card `after`, the worst pair of either card first. */
export function compareCards(before: Card, after: Card): CardComparison {
  return {
    moved: movedPoints(before, after),
    pairs: comparedPairs(before, after),
    wheels: (["left", "right"] as const).flatMap((side) => {
      const [a, b] = [before, after].map((card) => card.wheels.find((wheel) => wheel.side === side)?.change ?? null);
      return a || b ? [{ side, before: a ?? null, after: b ?? null }] : [];
    }),
    otherChanges: changedValues(withoutPoints(before.document), withoutPoints(after.document), ""),
  };
}

/** True where a builder would call it a change: more than 0.005 mm, or a pair that only one card has. */
export function hasChanged(pair: ComparedPair): boolean {
  return pair.won_mm === null || Math.abs(pair.won_mm) > SAME_MM;
}

function movedPoints(before: Card, after: Card): MovedPoint[] {
  const names = new Set([...before.points, ...after.points].map((point) => point.name));
  return [...names].flatMap((name): MovedPoint[] => {
    const from = before.points.find((point) => point.name === name)?.at ?? null;
    const to = after.points.find((point) => point.name === name)?.at ?? null;
    if (from === null || to === null) return [{ name, before: from, after: to, by: null, distance_mm: null }];
    const distance_mm = distance(from, to);
    return distance_mm > SAME_MM ? [{ name, before: from, after: to, by: subtract(to, from), distance_mm }] : [];
  });
}

function comparedPairs(before: Card, after: Card): ComparedPair[] {
  const first = new Map(before.pairs.map((pair) => [cardPairKey(pair), pair]));
  const second = new Map(after.pairs.map((pair) => [cardPairKey(pair), pair]));
  const worse = (pair: ComparedPair) =>
    [pair.before, pair.after].filter((found) => found !== null).sort(byGravity)[0] as PairVerdict;
  return [...new Set([...first.keys(), ...second.keys()])]
    .map((key) => {
      const [a, b] = [first.get(key) ?? null, second.get(key) ?? null];
      const named = (a ?? b) as PairVerdict;
      return {
        key,
        side: named.side,
        a: named.a,
        b: named.b,
        before: a,
        after: b,
        won_mm: a && b ? b.clearance_mm - a.clearance_mm : null,
      };
    })
    .sort((a, b) => byGravity(worse(a), worse(b)));
}

function withoutPoints(document: object): unknown {
  const { points: _points, ...rest } = document as { points?: unknown };
  return rest;
}

function changedValues(before: unknown, after: unknown, path: string): ChangedValue[] {
  if (Object.is(before, after)) return [];
  if (!isContainer(before) || !isContainer(after) || Array.isArray(before) !== Array.isArray(after)) {
    return [{ path, before, after }];
  }
  if (isPointOf(before) && isPointOf(after) && JSON.stringify(before) !== JSON.stringify(after)) {
    return [{ path, before, after }];
  }
  const keys = new Set([...Object.keys(before), ...Object.keys(after)]);
  return [...keys].flatMap((key) =>
    changedValues(Reflect.get(before, key), Reflect.get(after, key), childPath(path, key, Array.isArray(before))),
  );
}

function isContainer(value: unknown): value is object {
  return typeof value === "object" && value !== null;
}

/** Three numbers read better whole than one by one. */
function isPointOf(value: object): boolean {
  return Array.isArray(value) && value.length === 3 && value.every((part) => typeof part === "number");
}

function childPath(path: string, key: string, inArray: boolean): string {
  if (inArray) return `${path}[${key}]`;
  return path === "" ? key : `${path}.${key}`;
}
