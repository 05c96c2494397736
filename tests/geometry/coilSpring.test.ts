import { expect, test } from "vitest";
import { coilSpring } from "../../src/geometry/coilSpring.ts";
import { volume_mm3 } from "../../src/geometry/measure.ts";
import { distance, dot, length, normalise, scale, subtract, type Vec3 } from "../../src/maths/vec3.ts";
import { asManifold, expectSound, surfacePoints } from "./support.ts";

const FROM: Vec3 = [-45, 600, 235];
const TO: Vec3 = [-15, 548, 560];
const SPRING = { from: FROM, to: TO, outerDiameter_mm: 90, wireDiameter_mm: 11, freeTurns: 6 };

test("the coil is a sound surface between its seats and within its outer diameter", async () => {
  const solid = coilSpring(SPRING);
  expectSound(solid);
  expect((await asManifold(solid)).genus()).toBe(0);
  const axis = normalise(subtract(TO, FROM));
  const places = surfacePoints(solid, 1, 0).map((p) => {
    const offset = subtract(p, FROM);
    const along = dot(offset, axis);
    return { along, radial: length(subtract(offset, scale(axis, along))) };
  });
  const radial = places.map((p) => p.radial);
  expect(Math.max(...radial)).toBeLessThanOrEqual(45.001);
  expect(Math.max(...radial)).toBeGreaterThan(44);
  expect(Math.min(...radial)).toBeGreaterThan(45 - 11 - 1);
  const along = places.map((p) => p.along);
  expect(Math.min(...along)).toBeCloseTo(0, 2);
  expect(Math.max(...along)).toBeCloseTo(distance(FROM, TO), 2);
});

test("its wire has about the length of eight turns", () => {
  // wire section times the helix: turns · √((π·mean diameter)² + pitch²); the ends are ground, the wire has ten sides
  const helix_mm = 8 * Math.hypot(Math.PI * 79, distance(FROM, TO) / 8);
  const wire_mm3 = Math.PI * 5.5 ** 2 * helix_mm;
  expect(volume_mm3(coilSpring(SPRING)) / wire_mm3).toBeGreaterThan(0.85);
  expect(volume_mm3(coilSpring(SPRING)) / wire_mm3).toBeLessThan(1);
});
