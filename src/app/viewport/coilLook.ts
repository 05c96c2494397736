import { BufferAttribute, BufferGeometry } from "three";

/** Parameter mesh of the wire: (share of its length, cos φ, sin φ); the vertex shader bends it. */
export function coilGeometry(turns: number, perTurn = 36, round = 12): BufferGeometry {
  const along = Math.ceil(turns * perTurn);
  const positions = new Float32Array((along + 1) * round * 3 + 6);
  const indices: number[] = [];
  for (let i = 0; i <= along; i++) {
    for (let j = 0; j < round; j++) {
      const phi = (2 * Math.PI * j) / round;
      positions.set([i / along, Math.cos(phi), Math.sin(phi)], (i * round + j) * 3);
      if (i === along) continue;
      const a = i * round + j;
      const b = i * round + ((j + 1) % round);
      indices.push(a, b, a + round, b, b + round, a + round);
    }
  }
  // φ without a radius is the middle of the wire: caps
  const caps = (along + 1) * round;
  positions.set([0, 0, 0, 1, 0, 0], caps * 3);
  for (let j = 0; j < round; j++) {
    const next = (j + 1) % round;
    indices.push(caps, next, j, caps + 1, along * round + j, along * round + next);
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(positions, 3));
  geometry.setIndex(indices);
  return geometry;
}
