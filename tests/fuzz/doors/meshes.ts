import type fc from "fast-check";
import { importMesh } from "../../../src/geometry/importMesh.ts";
import { readyMesh } from "../../../src/scans/readyMesh.ts";
import { ScanRoom } from "../../../src/scans/scanRoom.ts";
import type { LengthUnit } from "../../../src/scene/meshFiles.ts";
import { type Door, type Handed, holds } from "../door.ts";
import { glbFiles, objFiles, plyFiles, stlFiles } from "../grammar/meshes.ts";

const UNITS: readonly LengthUnit[] = ["mm", "cm", "m", "in"];

function door(ending: string, files: fc.Arbitrary<Uint8Array>, share: number): Door {
  return {
    name: ending,
    share,
    ending,
    cases: files.map((content) => ({ file: `scan.${ending}`, content })),
    open: openMesh,
  };
}

/** As a part of a scene, and as a scan that is brought in. */
async function openMesh({ file, content }: Handed): Promise<void> {
  const bytes = content as Uint8Array;
  const unit = UNITS[bytes.length % UNITS.length]!;
  const solid = await importMesh(bytes, file, unit);
  const { positions, indices, shells } = solid;
  holds(indices.length > 0 && indices.length % 3 === 0, "whole triangles");
  holds(positions.every(Number.isFinite), "finite coordinates");
  holds(
    indices.every((vertex) => vertex < positions.length / 3),
    "vertices that are there",
  );
  holds(
    shells.reduce((sum, { triangleCount }) => sum + triangleCount, 0) === indices.length / 3,
    "every triangle in a shell",
  );
  const repair = { weldWithin_mm: 0.5, holesUpTo_mm: 100 };
  await readyMesh(bytes, file, { unit, repair, thinned: null });
  const room = new ScanRoom({ onStage() {} });
  await room.read(bytes, file);
  await room.look(unit, repair);
}

export const MESH_DOORS: readonly Door[] = [
  door("stl", stlFiles, 120),
  door("obj", objFiles, 100),
  door("ply", plyFiles, 120),
  door("glb", glbFiles, 120),
];
