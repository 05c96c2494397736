import { describe, expect, it } from "vitest";
import { crossingCurves } from "../../../src/clearance/crossing.ts";
import { type Ball, clipOutside } from "../../../src/clearance/excuse.ts";
import { buildTree } from "../../../src/clearance/kernel.ts";
import { createExcusedGauge } from "../../../src/clearance/pairStateExcused.ts";
import { contactPatch } from "../../../src/clearance/patch.ts";
import { triangleCountOf } from "../../../src/clearance/surface.ts";
import { type ClippedBody, type MadeTree, TreeShelf } from "../../../src/clearance/sweepShelf.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { identityPose } from "../../../src/maths/pose.ts";
import { distance, type Vec3 } from "../../../src/maths/vec3.ts";
import { blob, randomFrom, randomPose } from "../kernel/meshes.ts";
import { bar, body, joined, shiftPose } from "./shapes.ts";

const SEED = 31;
const random = randomFrom(SEED);
/** A bumpy lump of some 58,000 triangles, as closed as a casting; and the same as a scan with a hole on top. */
const closed = blob(random, 121, 90, [1, 0.8, 0.6], 0.004, [0, 0, 0]);
const open: Solid = opened(closed);
const BALLS: readonly Ball[] = [
  { centre: [85, 10, 5], radius_mm: 32 },
  { centre: [-80, 0, 20], radius_mm: 18 },
];
const LINK = body("link", joined(bar([85, 10, 5], [240, 60, 40], 12), bar([55, 0, 49], [130, 20, 49], 5)));
/** Where the link's own surface is excused. */
const EYE: readonly Ball[] = [{ centre: [85, 10, 5], radius_mm: 32 }];

function opened(solid: Solid): Solid {
  const kept: number[] = [];
  for (let i = 0; i < solid.indices.length; i += 3) {
    const triangle = solid.indices.subarray(i, i + 3);
    if ([...triangle].every((vertex) => solid.positions[3 * vertex + 2]! < 50)) kept.push(...triangle);
  }
  const shells = [{ firstTriangle: 0, triangleCount: kept.length / 3, closed: false }];
  return { ...solid, indices: Uint32Array.from(kept), shells };
}

/** What the shelf does for small bodies: all of what is left in a tree of its own. */
function copied(solid: Solid, balls: readonly Ball[]): ClippedBody {
  const { whole } = new TreeShelf().clip(body("copied", solid), []);
  const left = clipOutside(solid, balls)!;
  return { whole, counted: [buildTree(left.solid)], farthest: left.farthest };
}

function lengthOf(curves: readonly Float32Array[]): number {
  let length = 0;
  for (const curve of curves) {
    const at = (i: number): Vec3 => [curve[i]!, curve[i + 1]!, curve[i + 2]!];
    for (let i = 3; i < curve.length; i += 3) length += distance(at(i - 3), at(i));
  }
  return length;
}

describe.each([
  ["a casting", closed],
  ["a scan with a hole", open],
])(`what joints leave of %s of very many triangles (seed ${SEED})`, (name, solid) => {
  const shelf = new TreeShelf();
  const scan = body(name, solid);
  const shared = shelf.clip(scan, BALLS);
  const plain = copied(solid, BALLS);
  const link = shelf.clip(LINK, EYE);

  it("shares the tree of the whole and hides what is cut", () => {
    expect(shared.counted).toHaveLength(2);
    expect(shared.counted[0]!.triangles).toBe(shared.whole.tree.triangles);
    expect(triangleCountOf(shared.counted.slice(1))).toBeLessThan(solid.indices.length / 3 / 4);
  });

  it("has the same pieces, told by the same corners", () => {
    const places = ({ farthest }: ClippedBody) =>
      Array.from({ length: farthest!.length / 3 }, (_, i) => [...farthest!.subarray(3 * i, 3 * i + 3)]).sort();
    expect(places(shared)).toEqual(places(plain));
  });

  it("is measured as a copy of what is left is", () => {
    const [gauge, expected] = [createExcusedGauge(shared, link), createExcusedGauge(plain, link)];
    let apart = 0;
    for (let i = 0; i < 40; i++) {
      const pose = randomPose(random, 12, 14);
      gauge.measure(pose, false);
      expected.measure(pose, false);
      expect(gauge.overlaps(pose)).toBe(expected.overlaps(pose));
      expect(gauge.state.measure).toBe(expected.state.measure);
      const [found, wanted] = [gauge.state.clearance_mm, expected.state.clearance_mm];
      if (wanted > 0) {
        apart++;
        expect(found).toBeCloseTo(wanted, 6);
      } else {
        // both are short of the true depth by a tenth of it, 0.05 to 1.15 mm
        const short = Math.max(0.05, Math.min(1.15, -0.1 * Math.min(found, wanted)));
        expect(Math.abs(found - wanted)).toBeLessThanOrEqual(short + 1e-4);
      }
    }
    expect(apart).toBeGreaterThan(5);
    expect(apart).toBeLessThan(35);
  });

  it("is crossed in the same curves", () => {
    const pose = shiftPose([-4, 0, -6]);
    const curves = crossingCurves(shared.counted, link.counted, pose, identityPose());
    const expected = crossingCurves(plain.counted, link.counted, pose, identityPose());
    expect(curves.length).toBe(expected.length);
    expect(curves.length).toBeGreaterThan(0);
    expect(lengthOf(curves)).toBeCloseTo(lengthOf(expected), 3);
  });

  it("has a patch without a seam where the trees meet", () => {
    const excuses = [{ centreInA: EYE[0]!.centre, centreInB: EYE[0]!.centre, radius_mm: EYE[0]!.radius_mm }];
    const pair = { required_mm: 6, excuses };
    const patch = contactPatch(shelf, scan, LINK, pair, identityPose(), shiftPose([0, 0, 1]));
    expect(patch.a.area_mm2).toBeGreaterThan(50);
    // every vertex once: pieces of both trees use the same ones
    const places = new Set<string>();
    for (let i = 0; i < patch.a.positions.length; i += 3) places.add(patch.a.positions.subarray(i, i + 3).join());
    expect(places.size).toBe(patch.a.positions.length / 3);
  });

  it("goes to another shelf as no more than what is cut", () => {
    const told: MadeTree[] = [];
    const giver = new TreeShelf((made) => {
      told.push(made);
      return made;
    });
    giver.clip(scan, BALLS);
    expect(told.map(({ clipping }) => clipping !== null)).toEqual([false, true]);
    expect(told[1]!.tree!.triangleCount).toBe(shared.counted[1]!.triangleCount);
    const taker = new TreeShelf(() => {
      throw new Error("all is there already");
    });
    for (const made of told) taker.take(structuredClone(made));
    const gauge = createExcusedGauge(taker.clip(scan, BALLS), link);
    const expected = createExcusedGauge(shared, link);
    const pose = shiftPose([20, 5, 10]);
    gauge.measure(pose, false);
    expected.measure(pose, false);
    expect(gauge.state.clearance_mm).toBe(expected.state.clearance_mm);
  });
});
