/** The undirected edges of a triangle list. A half-edge h runs from corner h to the next corner of its triangle h/3. */
export interface EdgeTable {
  readonly edgeCount: number;
  /** Edge of each half-edge. */
  readonly edgeOf: Int32Array;
  /** How many triangles have each edge. */
  readonly uses: Int32Array;
  /** The first two half-edges of each edge, −1 where there is none. */
  readonly first: Int32Array;
  readonly second: Int32Array;
}

export function nextHalfEdge(halfEdge: number): number {
  return halfEdge % 3 === 2 ? halfEdge - 2 : halfEdge + 1;
}

export function edgeTable(indices: Uint32Array): EdgeTable {
  const halfEdges = indices.length;
  const slots = 2 ** Math.ceil(Math.log2(Math.max(16, 2 * halfEdges)));
  const edgeAt = new Int32Array(slots).fill(-1);
  const edgeOf = new Int32Array(halfEdges);
  const uses = new Int32Array(halfEdges);
  const first = new Int32Array(halfEdges).fill(-1);
  const second = new Int32Array(halfEdges).fill(-1);
  let edgeCount = 0;
  for (let h = 0; h < halfEdges; h++) {
    const [from, to] = [indices[h]!, indices[nextHalfEdge(h)]!];
    const low = Math.min(from, to);
    const high = Math.max(from, to);
    // by their sum, edges that follow each other in the list mostly lie near each other in the table, and thus in the cache;
    // few of a mesh have the same sum
    let slot = 4 * (low + high) + ((Math.imul(high, 0x9e3779b1) ^ Math.imul(low, 0x85ebca6b)) >>> 30);
    for (slot &= slots - 1; ; slot = (slot + 1) & (slots - 1)) {
      const edge = edgeAt[slot]!;
      if (edge < 0) {
        edgeAt[slot] = edgeCount;
        edgeOf[h] = edgeCount;
        first[edgeCount] = h;
        uses[edgeCount++] = 1;
        break;
      }
      const known = first[edge]!;
      const [a, b] = [indices[known]!, indices[nextHalfEdge(known)]!];
      if (Math.min(a, b) !== low || Math.max(a, b) !== high) continue;
      edgeOf[h] = edge;
      if (++uses[edge]! === 2) second[edge] = h;
      break;
    }
  }
  return { edgeCount, edgeOf, uses, first, second };
}
