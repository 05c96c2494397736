import { describe, expect, it } from "vitest";
import { creaseNormals } from "../../src/geometry/creaseNormals.ts";

/** A box of the given half sizes, every corner shared by its three faces. */
function box(x: number, y: number, z: number) {
  const positions = new Float32Array(24);
  for (let i = 0; i < 8; i++) positions.set([i & 1 ? x : -x, i & 2 ? y : -y, i & 4 ? z : -z], i * 3);
  const quads = [
    [0, 4, 6, 2],
    [1, 3, 7, 5],
    [0, 1, 5, 4],
    [2, 6, 7, 3],
    [0, 2, 3, 1],
    [4, 5, 7, 6],
  ];
  const indices = new Uint32Array(quads.flatMap(([a, b, c, d]) => [a!, b!, c!, a!, c!, d!]));
  return { positions, indices };
}

/** A closed cylinder about Z with shared vertices along its rims. */
function cylinder(radius: number, height: number, sides: number) {
  const positions = new Float32Array((sides * 2 + 2) * 3);
  const indices: number[] = [];
  for (let i = 0; i < sides; i++) {
    const a = (2 * Math.PI * i) / sides;
    positions.set([radius * Math.cos(a), radius * Math.sin(a), 0], i * 3);
    positions.set([radius * Math.cos(a), radius * Math.sin(a), height], (sides + i) * 3);
    const j = (i + 1) % sides;
    indices.push(i, j, sides + i, j, sides + j, sides + i);
    indices.push(2 * sides, j, i, 2 * sides + 1, sides + i, sides + j);
  }
  positions.set([0, 0, 0, 0, 0, height], sides * 6);
  return { positions, indices: new Uint32Array(indices) };
}

describe("smooth normals with creases", () => {
  it("keeps a box's faces flat: each corner has its face's normal", () => {
    const { positions, indices } = box(30, 20, 10);
    const mesh = creaseNormals(positions, indices);
    expect(mesh.positions.length / 3).toBe(24);
    for (let t = 0; t < mesh.indices.length; t += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => [
        ...mesh.normals.slice(mesh.indices[t + k]! * 3, mesh.indices[t + k]! * 3 + 3),
      ]);
      expect(a).toEqual(b);
      expect(b).toEqual(c);
      expect(Math.max(...a!.map(Math.abs))).toBeCloseTo(1, 6);
    }
  });

  it("gives a cylinder's side radial normals and its caps axial ones", () => {
    const { positions, indices } = cylinder(25, 80, 24);
    const mesh = creaseNormals(positions, indices);
    for (let v = 0; v < mesh.positions.length / 3; v++) {
      const [x, y] = [mesh.positions[v * 3]!, mesh.positions[v * 3 + 1]!];
      const [nx, ny, nz] = [mesh.normals[v * 3]!, mesh.normals[v * 3 + 1]!, mesh.normals[v * 3 + 2]!];
      expect(Math.hypot(nx, ny, nz)).toBeCloseTo(1, 5);
      if (Math.abs(nz) > 0.5) expect(Math.abs(nz)).toBeCloseTo(1, 5);
      else {
        // the two triangles of a quad span different angles at its corners: a few degrees off the radius at the most
        expect(nx * (x / 25) + ny * (y / 25)).toBeGreaterThan(Math.cos((8 * Math.PI) / 180));
      }
    }
  });

  it("keeps every triangle's corners where they were", () => {
    const { positions, indices } = cylinder(7, 20, 9);
    const mesh = creaseNormals(positions, indices);
    expect(mesh.indices.length).toBe(indices.length);
    for (let c = 0; c < indices.length; c++) {
      const was = positions.slice(indices[c]! * 3, indices[c]! * 3 + 3);
      expect([...mesh.positions.slice(mesh.indices[c]! * 3, mesh.indices[c]! * 3 + 3)]).toEqual([...was]);
    }
  });

  it("sees vertices at one place as one, and survives triangles without area", () => {
    const { positions, indices } = box(10, 10, 10);
    const apart = new Float32Array([...indices].flatMap((i) => [...positions.slice(i * 3, i * 3 + 3)]));
    const own = new Uint32Array([...indices.keys()]);
    const mesh = creaseNormals(apart, new Uint32Array([...own, 0, 0, 1]));
    expect(mesh.normals.every(Number.isFinite)).toBe(true);
    expect(mesh.positions.length / 3).toBeLessThanOrEqual(26);
  });
});
