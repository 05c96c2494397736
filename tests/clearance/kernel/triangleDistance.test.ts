import { describe, expect, it } from "vitest";
import { TRIANGLE_RESULT_SIZE, triangleDistance } from "../../../src/clearance/triangleDistance.ts";
import {
  add,
  cross,
  dot,
  length,
  mix,
  normalise,
  scale,
  squareTo,
  subtract,
  type Vec3,
} from "../../../src/maths/vec3.ts";
import { randomFrom, randomPoint } from "./meshes.ts";

type Triangle = readonly [Vec3, Vec3, Vec3];

interface Answer {
  readonly distance: number;
  readonly onA: Vec3;
  readonly onB: Vec3;
}

function ask(a: Triangle, b: Triangle): Answer {
  const out = new Float64Array(TRIANGLE_RESULT_SIZE);
  triangleDistance(Float64Array.from(a.flat()), 0, Float64Array.from(b.flat()), 0, out);
  return { distance: Math.sqrt(out[0]!), onA: [out[1]!, out[2]!, out[3]!], onB: [out[4]!, out[5]!, out[6]!] };
}

function toEdge(p: Vec3, from: Vec3, to: Vec3): number {
  const edge = subtract(to, from);
  const along = dot(edge, edge) > 0 ? Math.min(1, Math.max(0, dot(edge, subtract(p, from)) / dot(edge, edge))) : 0;
  return length(subtract(p, mix(from, to, along)));
}

/** Distance of a point to a triangle: to its edges, or to its plane where the point is above the inside of all edges. */
function toTriangle(p: Vec3, [a, b, c]: Triangle): number {
  const nearest = Math.min(toEdge(p, a, b), toEdge(p, b, c), toEdge(p, c, a));
  const normal = normalise(cross(subtract(b, a), subtract(c, a)));
  const isAbove = [[a, b] as const, [b, c] as const, [c, a] as const].every(
    ([from, to]) => dot(cross(normal, subtract(to, from)), subtract(p, from)) >= 0,
  );
  return isAbove && length(normal) > 0 ? Math.min(nearest, Math.abs(dot(normal, subtract(p, a)))) : nearest;
}

/**
 * Proof of an answer that needs no second algorithm. The points lie on the triangles, so the distance is not above the
 * answer; a slab as thick as the answer has the triangles on its two sides, so it is not below either. An answer of 0 is proven
 * by the common point alone.
 */
function unproven(a: Triangle, b: Triangle, { distance, onA, onB }: Answer): string | null {
  const size = Math.max(...a.flat().map(Math.abs), ...b.flat().map(Math.abs));
  const slack = 2e-11 * size;
  if (!(Math.abs(length(subtract(onB, onA)) - distance) <= slack)) return "the points are not that far apart";
  if (!(toTriangle(onA, a) <= slack)) return "the first point is off its triangle";
  if (!(toTriangle(onB, b) <= slack)) return "the second point is off its triangle";
  if (distance <= slack) return null;
  const gap = Math.max(...separatingDirections(a, b, subtract(onB, onA)).map((along) => gapAlong(a, b, along)));
  return gap >= distance - slack ? null : `something is nearer: ${gap} < ${distance}`;
}

function gapAlong(a: Triangle, b: Triangle, direction: Vec3): number {
  return Math.min(...b.map((p) => dot(p, direction))) - Math.max(...a.map((p) => dot(p, direction)));
}

/**
 * The direction between the two points; and, since a tiny distance leaves few digits of that, the normals of faces and of
 * pairs of edges, any of which proves as much.
 */
function separatingDirections(a: Triangle, b: Triangle, between: Vec3): Vec3[] {
  const edges = ([p, q, r]: Triangle) => [subtract(q, p), subtract(r, q), subtract(p, r)] as const;
  const [ea, eb] = [edges(a), edges(b)];
  const crosses = ea.flatMap((u) => eb.map((v) => cross(u, v)));
  return [between, cross(ea[0], ea[1]), cross(eb[0], eb[1]), ...crosses]
    .map(normalise)
    .map((d) => (dot(d, between) < 0 ? scale(d, -1) : d));
}

function expectProven(a: Triangle, b: Triangle, name: string): void {
  for (const [first, second] of [[a, b] as const, [b, a] as const]) {
    const reason = unproven(first, second, ask(first, second));
    if (reason) throw new Error(`${name}: ${reason}\n${JSON.stringify([first, second])}`);
  }
}

function randomTriangle(random: () => number, size: number): Triangle {
  return [randomPoint(random, size), randomPoint(random, size), randomPoint(random, size)];
}

/** A thin triangle: its third corner `height` off the line of the first two. */
function sliver(random: () => number, size: number, height: number): Triangle {
  const [a, b] = [randomPoint(random, size), randomPoint(random, size)];
  const off = scale(normalise(randomPoint(random, 1)), height);
  return [a, b, add(mix(a, b, random() * 1.4 - 0.2), off)];
}

function shift(triangle: Triangle, by: Vec3): Triangle {
  return [add(triangle[0], by), add(triangle[1], by), add(triangle[2], by)];
}

function inPlane(random: () => number, origin: Vec3, u: Vec3, v: Vec3, size: number): Triangle {
  const point = () => add(origin, add(scale(u, (random() * 2 - 1) * size), scale(v, (random() * 2 - 1) * size)));
  return [point(), point(), point()];
}

const kinds: Record<string, (random: () => number) => readonly [Triangle, Triangle]> = {
  "any two": (random) => [randomTriangle(random, 100), shift(randomTriangle(random, 100), randomPoint(random, 150))],
  "far from the origin": (random) => {
    const away = randomPoint(random, 2e4);
    return [
      shift(randomTriangle(random, 10), away),
      shift(randomTriangle(random, 10), add(away, randomPoint(random, 15))),
    ];
  },
  "of very different size": (random) => [
    randomTriangle(random, 1000),
    shift(randomTriangle(random, 10 ** (random() * 5 - 4)), randomPoint(random, 500)),
  ],
  "in one sloping plane": (random) => {
    const u = normalise(randomPoint(random, 1));
    const v = squareTo(u);
    const origin = randomPoint(random, 300);
    const other = add(origin, add(scale(u, random() * 120), scale(v, random() * 120)));
    return [inPlane(random, origin, u, v, 80), inPlane(random, other, u, v, 80)];
  },
  "in two parallel planes": (random) => {
    const u = normalise(randomPoint(random, 1));
    const v = squareTo(u);
    const origin = randomPoint(random, 300);
    const lift = scale(cross(u, v), 10 ** (random() * 12 - 10));
    return [inPlane(random, origin, u, v, 80), shift(inPlane(random, origin, u, v, 80), lift)];
  },
  "with a thin one": (random) => [
    sliver(random, 100, 10 ** (random() * 12 - 10)),
    shift(randomTriangle(random, 100), randomPoint(random, 100)),
  ],
  "two thin ones": (random) => [
    sliver(random, 100, 10 ** (random() * 12 - 10)),
    shift(sliver(random, 100, 10 ** (random() * 12 - 10)), randomPoint(random, 60)),
  ],
  "nearly parallel edges": (random) => {
    const a = randomTriangle(random, 100);
    const lift = scale(normalise(randomPoint(random, 1)), random() * 20);
    const tilt = () => randomPoint(random, 10 ** (random() * 9 - 9));
    return [a, [add(add(a[0], lift), tilt()), add(add(a[1], lift), tilt()), add(add(a[2], lift), tilt())]];
  },
  "with a common corner": (random) => {
    const a = randomTriangle(random, 100);
    return [a, [a[0], randomPoint(random, 100), randomPoint(random, 100)]];
  },
  "with a common edge": (random) => {
    const a = randomTriangle(random, 100);
    return [a, [a[1], a[0], randomPoint(random, 100)]];
  },
  "a corner resting on a face": (random) => {
    const a = randomTriangle(random, 100);
    const on = mix(mix(a[0], a[1], random()), a[2], random());
    return [a, [on, add(on, randomPoint(random, 50)), add(on, randomPoint(random, 50))]];
  },
  "needles and points": (random) => {
    const [p, q] = [randomPoint(random, 100), randomPoint(random, 100)];
    const needle: Triangle = [p, q, mix(p, q, 0.25)];
    const other = shift(randomTriangle(random, 100), randomPoint(random, 80));
    const r = randomPoint(random, 120);
    return random() < 0.5 ? [needle, other] : [[p, p, q], random() < 0.5 ? other : [r, r, r]];
  },
};

describe("distance of two triangles", () => {
  const SEED = 20260;
  const CASES = 5000;
  for (const [name, make] of Object.entries(kinds)) {
    it(`is proven by its points and the slab between them: ${name} (${CASES} pairs, seed ${SEED})`, () => {
      const random = randomFrom(SEED);
      for (let k = 0; k < CASES; k++) expectProven(...make(random), `${name}, pair ${k}`);
    });
  }

  const flat: Triangle = [
    [0, 0, 0],
    [90, 0, 0],
    [0, 90, 0],
  ];

  it("is 0 where a triangle lies within another in the same plane, without any crossing edges", () => {
    expect(
      ask(flat, [
        [10, 10, 0],
        [20, 10, 0],
        [10, 20, 0],
      ]).distance,
    ).toBe(0);
    const turned = (p: Vec3): Vec3 => [
      (p[0] - p[1]) * Math.SQRT1_2,
      (p[0] + p[1]) * 0.5 - p[2] * Math.SQRT1_2,
      (p[0] + p[1]) * 0.5,
    ];
    const a: Triangle = [turned([0, 0, 0]), turned([90, 0, 0]), turned([0, 90, 0])];
    expect(ask(a, [turned([10, 10, 0]), turned([20, 10, 0]), turned([10, 20, 0])]).distance).toBeLessThan(1e-12);
  });

  it("is 0 where an edge pierces a face, and the point is the piercing point", () => {
    const answer = ask(flat, [
      [20, 20, -5],
      [20, 20, 15],
      [60, 60, 40],
    ]);
    expect(answer.distance).toBe(0);
    expect(answer.onA).toEqual([20, 20, 0]);
  });

  it("runs from a corner square to a face", () => {
    const answer = ask(flat, [
      [20, 30, 7],
      [20, 30, 50],
      [90, 90, 20],
    ]);
    expect(answer).toEqual({ distance: 7, onA: [20, 30, 0], onB: [20, 30, 7] });
  });

  it("runs between two edges: segments (0..100,0,0) and (130..230,40,0) are 50 apart (right triangle 30-40-50)", () => {
    const a: Triangle = [
      [0, 0, 0],
      [100, 0, 0],
      [50, -80, 0],
    ];
    expect(
      ask(a, [
        [130, 40, 0],
        [230, 40, 0],
        [180, 90, 0],
      ]).distance,
    ).toBe(50);
  });

  it("does not read 0 for a thin triangle whose plane the other one straddles", () => {
    const needle: Triangle = [
      [0, 0, 0],
      [100, 0, 0],
      [50, 1e-9, 0],
    ];
    expect(
      ask(needle, [
        [20, 12, -30],
        [20, 12, 30],
        [80, 40, 0],
      ]).distance,
    ).toBeCloseTo(12, 9);
  });
});
