import type { Solid } from "../../src/geometry/solid.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import type { SceneFiles } from "../../src/work/protocol.ts";
import { solidOf, turnedMesh } from "../bench/meshes.ts";
import { storyCorner } from "../check/storyCorner.ts";

const SEGMENTS = 60;
const BELTS = 20;
const POSES = 40;

/**
 * A corner with one pair that takes many thousands of states: a sleeve that turns with the engine about a spindle, 1 mm
 * from it all around, so that every bound on its motion is wide and nothing comes of it.
 */
export function longPair(): { readonly document: SceneDocument; readonly files: SceneFiles } {
  const [from, to] = [[0, 600, 900] as const, [0, 700, 900] as const];
  const along = (radius_mm: number, count: number): [number, number][] =>
    Array.from({ length: count + 1 }, (_, i) => [(100 * i) / count, radius_mm]);
  const spindle = solidOf([turnedMesh(from, to, [[0, 0], ...along(40, BELTS), [100, 0]], SEGMENTS)]);
  const sleeve = solidOf([turnedMesh(from, to, [...along(60, 1).reverse(), ...along(41, BELTS)], SEGMENTS, true)]);
  const document = storyCorner({
    travel: { bump_mm: 0.5, droop_mm: 0.5, step_mm: 0.5 },
    powertrain: {
      poses: Array.from({ length: POSES }, (_, i) => ({
        id: `turned-${i}`,
        about: [0, 650, 900],
        axis: [0, 1, 0],
        angle_deg: 2 + i,
      })),
    },
    bodies: [
      { id: "spindle", on: "carrier", shape: { kind: "mesh", file: "spindle.stl", unit: "mm" } },
      { id: "sleeve", on: "powertrain", shape: { kind: "mesh", file: "sleeve.stl", unit: "mm" } },
    ],
  });
  return {
    document,
    files: new Map([
      ["spindle.stl", stlOf(spindle)],
      ["sleeve.stl", stlOf(sleeve)],
    ]),
  };
}

/** Binary STL: 80 bytes, a count, 50 bytes a triangle. The test's writers of mesh files need its runner, which no page has. */
function stlOf({ positions, indices }: Solid): Uint8Array {
  const view = new DataView(new ArrayBuffer(84 + (50 * indices.length) / 3));
  view.setUint32(80, indices.length / 3, true);
  indices.forEach((vertex, i) => {
    const at = 84 + 50 * Math.floor(i / 3) + 12 + 12 * (i % 3);
    for (let k = 0; k < 3; k++) view.setFloat32(at + 4 * k, positions[3 * vertex + k]!, true);
  });
  return new Uint8Array(view.buffer);
}
