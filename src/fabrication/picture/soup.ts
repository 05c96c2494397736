import type { ShadedMesh } from "../../geometry/creaseNormals.ts";
import { applyPose, type Pose, turnByPose } from "../../maths/pose.ts";
import { dot, subtract, type Vec3 } from "../../maths/vec3.ts";
import type { Projection } from "./view.ts";

/** A surface to be drawn: a mesh in its design position and the pose that takes it to where it stands. */
export interface DrawnSurface {
  readonly mesh: ShadedMesh;
  readonly pose: Pose;
  /** Names what it looks like; no two neighbours of one number have a line between them. From 1. */
  readonly number: number;
  /** Of each vertex, mm; left out: nothing. */
  readonly clearance_mm?: Float32Array;
}

/** Triangles as they lie in the picture, all surfaces in one. */
export interface Soup {
  /** Of each vertex: across and down in samples, and towards the eye in mm. */
  readonly places: Float32Array;
  /** Of each vertex, unit: across, up, towards the eye. */
  readonly normals: Float32Array;
  readonly clearance_mm: Float32Array;
  /** 3 vertices a triangle. */
  readonly indices: Uint32Array;
  /** DrawnSurface.number of each triangle. */
  readonly surface: Uint16Array;
}

/** The surfaces as they lie in a picture whose units are samples. */
export function soupOf(surfaces: readonly DrawnSurface[], projection: Projection): Soup {
  const vertices = surfaces.reduce((sum, { mesh }) => sum + mesh.positions.length / 3, 0);
  const corners = surfaces.reduce((sum, { mesh }) => sum + mesh.indices.length, 0);
  const soup = {
    places: new Float32Array(3 * vertices),
    normals: new Float32Array(3 * vertices),
    clearance_mm: new Float32Array(vertices),
    indices: new Uint32Array(corners),
    surface: new Uint16Array(corners / 3),
  };
  let vertex = 0;
  let corner = 0;
  for (const { mesh, pose, number, clearance_mm } of surfaces) {
    place(mesh, pose, projection, soup, vertex);
    if (clearance_mm) soup.clearance_mm.set(clearance_mm, vertex);
    soup.surface.fill(number, corner / 3, (corner + mesh.indices.length) / 3);
    for (const index of mesh.indices) soup.indices[corner++] = vertex + index;
    vertex += mesh.positions.length / 3;
  }
  return soup;
}

function place({ positions, normals }: ShadedMesh, pose: Pose, projection: Projection, soup: Soup, from: number): void {
  const { axes, about, originX, originY, perMm } = projection;
  for (let i = 0; i < positions.length; i += 3) {
    const p = subtract(applyPose(pose, [positions[i]!, positions[i + 1]!, positions[i + 2]!]), about);
    const n: Vec3 = turnByPose(pose, [normals[i]!, normals[i + 1]!, normals[i + 2]!]);
    const at = 3 * from + i;
    soup.places[at] = originX + perMm * dot(axes.right, p);
    soup.places[at + 1] = originY - perMm * dot(axes.up, p);
    soup.places[at + 2] = dot(axes.towards, p);
    soup.normals[at] = dot(axes.right, n);
    soup.normals[at + 1] = dot(axes.up, n);
    soup.normals[at + 2] = dot(axes.towards, n);
  }
}
