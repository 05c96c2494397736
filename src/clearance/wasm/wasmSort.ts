import type { Pacer } from "../../maths/poll.ts";
import type { TreeLayout } from "../meshBvhAdapter.ts";
import type { WasmKernel } from "./wasmKernel.ts";

// The other side of assembly/sort.ts.
const RECORD_WORDS = 8;
const NODE_WORDS = 3;
/** Triangles are named by floats, which are whole up to twice this; none is so small that reckoning with it takes long. */
const NAME = 2 ** 23;
/** Triangles between two polls. */
const STRETCH = 4096;

/**
 * Sorts triangles (3 vertices each, of 3 float32 coordinates; at least one triangle) in the compiled kernel, by the
 * surface-area heuristic; null if there is no room for so many.
 */
export function sortInKernel(
  kernel: WasmKernel,
  vertices: Float32Array,
  corners: Uint32Array,
  leafSize: number,
  pacer: Pacer,
): TreeLayout | null {
  const count = corners.length / 3;
  if (count > NAME) return null;
  const recordBytes = 4 * RECORD_WORDS * count;
  return kernel.lend(recordBytes + 4 * NODE_WORDS * count, (memory, at) => {
    const records = new Float32Array(memory, at, RECORD_WORDS * count);
    for (let from = 0; from < count; from += STRETCH) {
      const end = Math.min(from + STRETCH, count);
      writeRecords(vertices, corners, from, end, records);
      pacer.spend(end - from);
    }
    const nodeCount = kernel.sort(at, count, at + recordBytes, count, leafSize, pacer);
    const nodes = new Uint32Array(memory, at + recordBytes, NODE_WORDS * nodeCount);
    const layout = {
      order: new Uint32Array(count),
      right: new Uint32Array(nodeCount),
      first: new Uint32Array(nodeCount),
      count: new Uint32Array(nodeCount),
    };
    for (let i = 0; i < count; i++) {
      pacer.spend(1);
      layout.order[i] = records[RECORD_WORDS * i + 3]! - NAME;
    }
    for (let node = 0; node < nodeCount; node++) {
      layout.right[node] = nodes[NODE_WORDS * node]!;
      layout.first[node] = nodes[NODE_WORDS * node + 1]!;
      layout.count[node] = nodes[NODE_WORDS * node + 2]!;
    }
    return layout;
  });
}

/** Boxes and names of triangles `from` to before `end`. */
function writeRecords(
  vertices: Float32Array,
  corners: Uint32Array,
  from: number,
  end: number,
  records: Float32Array,
): void {
  for (let i = from; i < end; i++) {
    const a = 3 * corners[3 * i]!;
    const b = 3 * corners[3 * i + 1]!;
    const c = 3 * corners[3 * i + 2]!;
    const to = RECORD_WORDS * i;
    for (let k = 0; k < 3; k++) {
      const p = vertices[a + k]!;
      const q = vertices[b + k]!;
      const r = vertices[c + k]!;
      records[to + k] = Math.min(p, q, r);
      records[to + 4 + k] = Math.max(p, q, r);
    }
    records[to + 3] = NAME + i;
    records[to + 7] = 0;
  }
}
