export interface ShadedMesh {
  /** 3 per vertex, mm. */
  readonly positions: Float32Array;
  /** 3 per vertex, unit. */
  readonly normals: Float32Array;
  readonly indices: Uint32Array;
}

/**
 * Vertices of a flat triangle mesh doubled along its creases, with smooth normals between them. At each corner the
 * normals of the triangles round the vertex that turn less than `crease_deg` from the corner's own are summed, weighted by
 * the angle they span there (Thürmer and Wüthrich, "Computing Vertex Normals from Polygonal Facets", Journal of Graphics
 * Tools 3(1), 1998). Vertices that lie within 1 µm grid cells of each other count as one. Triangles without area keep
 * the normal of their neighbours.
 */
export function creaseNormals(positions: Float32Array, indices: Uint32Array, crease_deg = 32): ShadedMesh {
  const vertexOf = weld(positions);
  const corners = indices.length;
  const faceNormals = new Float32Array(corners);
  const cornerAngles = new Float32Array(corners);
  measureFaces(positions, indices, faceNormals, cornerAngles);

  const vertexCount = positions.length / 3;
  const first = new Uint32Array(vertexCount + 1);
  for (let c = 0; c < corners; c++) first[vertexOf[indices[c]!]! + 1]!++;
  for (let v = 0; v < vertexCount; v++) first[v + 1]! += first[v]!;
  const fill = first.slice(0, vertexCount);
  const around = new Uint32Array(corners);
  for (let c = 0; c < corners; c++) around[fill[vertexOf[indices[c]!]!]!++] = c;

  const outPositions = new Float32Array(corners * 3);
  const outNormals = new Float32Array(corners * 3);
  const outIndices = new Uint32Array(corners);
  const cosine = Math.cos((crease_deg * Math.PI) / 180);
  let made = 0;
  for (let v = 0; v < vertexCount; v++) {
    const begin = first[v]!;
    const end = first[v + 1]!;
    const madeBefore = made;
    for (let i = begin; i < end; i++) {
      const corner = around[i]!;
      const own = corner - (corner % 3);
      const ox = faceNormals[own]!;
      const oy = faceNormals[own + 1]!;
      const oz = faceNormals[own + 2]!;
      const flat = ox === 0 && oy === 0 && oz === 0;
      let x = 0;
      let y = 0;
      let z = 0;
      for (let j = begin; j < end; j++) {
        const other = around[j]!;
        const face = other - (other % 3);
        const fx = faceNormals[face]!;
        const fy = faceNormals[face + 1]!;
        const fz = faceNormals[face + 2]!;
        if (!flat && fx * ox + fy * oy + fz * oz < cosine) continue;
        const angle = cornerAngles[other]!;
        x += fx * angle;
        y += fy * angle;
        z += fz * angle;
      }
      const size = Math.sqrt(x * x + y * y + z * z) || 1;
      x /= size;
      y /= size;
      z /= size;
      let at = madeBefore;
      while (
        at < made &&
        outNormals[at * 3]! * x + outNormals[at * 3 + 1]! * y + outNormals[at * 3 + 2]! * z < 0.99998
      ) {
        at++;
      }
      if (at === made) {
        const source = indices[corner]! * 3;
        outPositions[made * 3] = positions[source]!;
        outPositions[made * 3 + 1] = positions[source + 1]!;
        outPositions[made * 3 + 2] = positions[source + 2]!;
        outNormals[made * 3] = x;
        outNormals[made * 3 + 1] = y;
        outNormals[made * 3 + 2] = z;
        made++;
      }
      outIndices[corner] = at;
    }
  }
  return {
    positions: outPositions.slice(0, made * 3),
    normals: outNormals.slice(0, made * 3),
    indices: outIndices,
  };
}

/** Per triangle at 3·t: its unit normal (zero without area); per corner: the angle there, rad. */
function measureFaces(
  positions: Float32Array,
  indices: Uint32Array,
  normals: Float32Array,
  angles: Float32Array,
): void {
  const edge = new Float64Array(9);
  for (let t = 0; t < indices.length; t += 3) {
    for (let k = 0; k < 3; k++) {
      const from = indices[t + k]! * 3;
      const to = indices[t + ((k + 1) % 3)]! * 3;
      for (let axis = 0; axis < 3; axis++) edge[k * 3 + axis] = positions[to + axis]! - positions[from + axis]!;
    }
    const x = edge[1]! * edge[5]! - edge[2]! * edge[4]!;
    const y = edge[2]! * edge[3]! - edge[0]! * edge[5]!;
    const z = edge[0]! * edge[4]! - edge[1]! * edge[3]!;
    const size = Math.sqrt(x * x + y * y + z * z);
    if (size === 0) continue;
    normals[t] = x / size;
    normals[t + 1] = y / size;
    normals[t + 2] = z / size;
    for (let k = 0; k < 3; k++) {
      const before = ((k + 2) % 3) * 3;
      const after = k * 3;
      const along =
        edge[before]! * edge[after]! + edge[before + 1]! * edge[after + 1]! + edge[before + 2]! * edge[after + 2]!;
      angles[t + k] = Math.atan2(size, -along);
    }
  }
}

/** For every vertex the first one at the same place, to 1 µm. Open addressing: a Map of strings is too slow for scans. */
function weld(positions: Float32Array): Uint32Array {
  const count = positions.length / 3;
  let size = 16;
  while (size < count * 2) size *= 2;
  const table = new Int32Array(size).fill(-1);
  const cell = new Int32Array(count * 3);
  for (let i = 0; i < cell.length; i++) cell[i] = Math.round(positions[i]! * 1000);
  const out = new Uint32Array(count);
  for (let v = 0; v < count; v++) {
    const x = cell[v * 3]!;
    const y = cell[v * 3 + 1]!;
    const z = cell[v * 3 + 2]!;
    let slot = (Math.imul(x, 73856093) ^ Math.imul(y, 19349663) ^ Math.imul(z, 83492791)) & (size - 1);
    for (;;) {
      const other = table[slot]!;
      if (other < 0) {
        table[slot] = v;
        out[v] = v;
        break;
      }
      if (cell[other * 3] === x && cell[other * 3 + 1] === y && cell[other * 3 + 2] === z) {
        out[v] = other;
        break;
      }
      slot = (slot + 1) & (size - 1);
    }
  }
  return out;
}
