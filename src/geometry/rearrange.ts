import type { Pose } from "../maths/pose.ts";
import type { Shell, Solid } from "./solid.ts";

/** The solid moved rigidly; float64 inside, float32 out. */
export function transformSolid(solid: Solid, pose: Pose): Solid {
  return { ...mapped(solid, (cloud) => movedCloud(cloud, pose)), indices: solid.indices, shells: solid.shells };
}

/** The image in the car's centre plane (Y changes sign), wound so that it still faces outward. */
export function mirrorSolid(solid: Solid): Solid {
  const indices = new Uint32Array(solid.indices.length);
  for (let i = 0; i < indices.length; i += 3) {
    indices[i] = solid.indices[i]!;
    indices[i + 1] = solid.indices[i + 2]!;
    indices[i + 2] = solid.indices[i + 1]!;
  }
  return { ...mapped(solid, mirroredCloud), indices, shells: solid.shells };
}

/** The solids as one, each keeping its own shells; surfaces may overlap. Without pieces in one there are none in all. */
export function mergeSolids(solids: readonly Solid[]): Solid {
  const positions = new Float32Array(total(solids, (solid) => solid.positions.length));
  const indices = new Uint32Array(total(solids, (solid) => solid.indices.length));
  const shells: Shell[] = [];
  let position = 0;
  let index = 0;
  for (const solid of solids) {
    positions.set(solid.positions, position);
    for (const [i, vertex] of solid.indices.entries()) indices[index + i] = vertex + position / 3;
    for (const shell of solid.shells) shells.push({ ...shell, firstTriangle: shell.firstTriangle + index / 3 });
    position += solid.positions.length;
    index += solid.indices.length;
  }
  const inPieces = solids.every((solid) => solid.convexPieces !== null);
  return { positions, indices, shells, convexPieces: inPieces ? solids.flatMap((s) => s.convexPieces ?? []) : null };
}

/** A convex solid's single piece is its own vertices: it stays one array. */
function mapped(solid: Solid, map: (cloud: Float32Array) => Float32Array): Pick<Solid, "positions" | "convexPieces"> {
  const positions = map(solid.positions);
  const convexPieces = solid.convexPieces?.map((piece) => (piece === solid.positions ? positions : map(piece))) ?? null;
  return { positions, convexPieces };
}

function movedCloud(cloud: Float32Array, pose: Pose): Float32Array {
  const moved = new Float32Array(cloud.length);
  for (let i = 0; i < cloud.length; i += 3) {
    const x = cloud[i]!;
    const y = cloud[i + 1]!;
    const z = cloud[i + 2]!;
    moved[i] = pose[0]! * x + pose[1]! * y + pose[2]! * z + pose[3]!;
    moved[i + 1] = pose[4]! * x + pose[5]! * y + pose[6]! * z + pose[7]!;
    moved[i + 2] = pose[8]! * x + pose[9]! * y + pose[10]! * z + pose[11]!;
  }
  return moved;
}

function mirroredCloud(cloud: Float32Array): Float32Array {
  const mirrored = cloud.slice();
  for (let i = 1; i < mirrored.length; i += 3) mirrored[i] = -mirrored[i]!;
  return mirrored;
}

function total(solids: readonly Solid[], size: (solid: Solid) => number): number {
  return solids.reduce((sum, solid) => sum + size(solid), 0);
}
