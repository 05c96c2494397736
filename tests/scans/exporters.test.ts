import { BufferAttribute, BufferGeometry, Mesh, Scene } from "three";
import { OBJExporter } from "three/examples/jsm/exporters/OBJExporter.js";
import { PLYExporter } from "three/examples/jsm/exporters/PLYExporter.js";
import { STLExporter } from "three/examples/jsm/exporters/STLExporter.js";
import { expect, test, vi } from "vitest";
import { area_mm2, bounds, volume_mm3 } from "../../src/geometry/measure.ts";
import { shellsOf } from "../../src/geometry/shells.ts";
import { readyMesh } from "../../src/scans/readyMesh.ts";
import { bumpyBall } from "./meshes.ts";

/** Files by another program's writers (three's exporters), read back with all that a scan goes through. */
const BALL = shellsOf(bumpyBall(10, 150, 4));

function drawn(): Scene {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(BALL.positions, 3));
  geometry.setIndex(new BufferAttribute(BALL.indices, 1));
  geometry.computeVertexNormals();
  const scene = new Scene();
  scene.add(new Mesh(geometry));
  scene.updateMatrixWorld(true);
  return scene;
}

// the PLY writer calls its callback with the next frame, which there is none of here
vi.stubGlobal("requestAnimationFrame", () => 0);

const text = (value: string) => new TextEncoder().encode(value);
const bytes = (value: DataView | ArrayBuffer | null) =>
  value instanceof DataView ? new Uint8Array(value.buffer) : new Uint8Array(value!);

test.each([
  ["ball.stl", () => bytes(new STLExporter().parse(drawn(), { binary: true }) as unknown as DataView)],
  ["ball-text.stl", () => text(new STLExporter().parse(drawn(), { binary: false }) as string)],
  ["ball.obj", () => text(new OBJExporter().parse(drawn()))],
  [
    "ball.ply",
    () => bytes(new PLYExporter().parse(drawn(), () => {}, { binary: true, littleEndian: true }) as ArrayBuffer),
  ],
  ["ball-text.ply", () => text(new PLYExporter().parse(drawn(), () => {}, { binary: false }) as string)],
])("%s", async (name, write) => {
  const solid = await readyMesh(write(), name, { unit: "mm", repair: null, thinned: null });
  expect(solid.shells).toEqual([{ firstTriangle: 0, triangleCount: BALL.indices.length / 3, closed: true }]);
  expect(volume_mm3(solid) / volume_mm3(BALL)).toBeCloseTo(1, 5);
  expect(area_mm2(solid) / area_mm2(BALL)).toBeCloseTo(1, 5);
  for (const k of [0, 1, 2] as const) expect(bounds(solid).max[k]).toBeCloseTo(bounds(BALL).max[k], 3);
});
