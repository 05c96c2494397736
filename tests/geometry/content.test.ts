import { expect, test } from "vitest";
import { contentKey } from "../../src/geometry/content.ts";
import type { Shape } from "../../src/scene/scene.ts";
import { contextAt, draw, WHEEL } from "./support.ts";

const SPHERE: Shape = { kind: "sphere", diameter_mm: 40, at: [1, 2, 3], turn_deg: null };
const WHEEL_SHAPE: Shape = { kind: "wheel", at: null, turn_deg: null };
const SCAN: Shape = {
  kind: "mesh",
  file: "scan.stl",
  unit: "mm",
  repair: null,
  thinned: null,
  at: null,
  turn_deg: null,
};
const otherWheel = { ...contextAt(0.1), wheel: { ...WHEEL, toe_deg: 0.3 } };

test("the order of keys does not matter, values do", () => {
  const turned = { turn_deg: null, at: [1, 2, 3], diameter_mm: 40, kind: "sphere" } as const;
  expect(contentKey(turned, contextAt(0.1))).toBe(contentKey(SPHERE, contextAt(0.1)));
  expect(contentKey({ ...SPHERE, diameter_mm: 41 }, contextAt(0.1))).not.toBe(contentKey(SPHERE, contextAt(0.1)));
  expect(contentKey(SPHERE, contextAt(0.2))).not.toBe(contentKey(SPHERE, contextAt(0.1)));
});

test("the wheel counts for what is made of it, and for nothing else", () => {
  expect(contentKey(SPHERE, otherWheel)).toBe(contentKey(SPHERE, contextAt(0.1)));
  const group: Shape = { kind: "group", parts: [SPHERE, WHEEL_SHAPE], at: null, turn_deg: null };
  for (const shape of [WHEEL_SHAPE, group, { kind: "tyre" }, { kind: "rim" }] as const) {
    expect(contentKey(shape, otherWheel)).not.toBe(contentKey(shape, contextAt(0.1)));
  }
});

test("a mesh counts by what is in the file", () => {
  const withFile = (diameter_mm: number) =>
    contentKey(SCAN, contextAt(0.1, new Map([["scan.stl", draw({ kind: "sphere", diameter_mm })]])));
  expect(withFile(20)).toBe(withFile(20));
  expect(withFile(20)).not.toBe(withFile(20.001));
  expect(withFile(20)).not.toBe(contentKey(SCAN, contextAt(0.1)));
});
