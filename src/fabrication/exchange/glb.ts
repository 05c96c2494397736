import { Document, WebIO } from "@gltf-transform/core";
import type { PartGroup } from "../../check/model.ts";
import type { StandingPart } from "./standing.ts";

const METRES = 0.001;
/** Linear red, green, blue, alpha. */
const COLOURS: Readonly<Record<PartGroup, [number, number, number, number]>> = {
  chassis: [0.2, 0.22, 0.24, 1],
  powertrain: [0.62, 0.56, 0.46, 1],
  hub: [0.08, 0.08, 0.09, 1],
  arms: [0.75, 0.75, 0.75, 1],
};

/**
 * The parts as one binary glTF 2.0 file, a node each, named by its key. Metres, Y up and Z forward as the standard wants them
 * (Khronos Group, glTF 2.0, 3.4): X is the car's left.
 */
export async function glbOf(parts: readonly StandingPart[]): Promise<Uint8Array<ArrayBuffer>> {
  const gltf = new Document();
  const buffer = gltf.createBuffer();
  const scene = gltf.createScene("car");
  const materials = new Map(
    (Object.keys(COLOURS) as PartGroup[]).map((group) => [
      group,
      gltf.createMaterial(group).setBaseColorFactor(COLOURS[group]).setMetallicFactor(0.1).setRoughnessFactor(0.7),
    ]),
  );
  for (const { key, group, positions, indices } of parts) {
    const primitive = gltf
      .createPrimitive()
      .setAttribute("POSITION", gltf.createAccessor().setType("VEC3").setArray(turned(positions)).setBuffer(buffer))
      .setIndices(gltf.createAccessor().setType("SCALAR").setArray(indices.slice()).setBuffer(buffer))
      .setMaterial(materials.get(group)!);
    scene.addChild(gltf.createNode(key).setMesh(gltf.createMesh(key).addPrimitive(primitive)));
  }
  return new WebIO().writeBinary(gltf);
}

/** Forward, left, up in mm to left, up, forward in metres. */
function turned(positions: Float32Array): Float32Array<ArrayBuffer> {
  const out = new Float32Array(positions.length);
  for (let i = 0; i < positions.length; i += 3) {
    out[i] = METRES * positions[i + 1]!;
    out[i + 1] = METRES * positions[i + 2]!;
    out[i + 2] = METRES * positions[i]!;
  }
  return out;
}
