import type { CDPSession } from "playwright-core";

/** What a heap snapshot is made of, as far as it is read here. */
interface Snapshot {
  readonly snapshot: {
    readonly meta: { readonly node_fields: readonly string[]; readonly node_types: readonly unknown[] };
  };
  readonly nodes: readonly number[];
}

export interface HeapSizes {
  /** What the page holds: its objects, texts, arrays and nodes. */
  readonly held_bytes: number;
  /** What the engine makes of the program as it is used: machine code at several levels, and what it met at each place. */
  readonly code_bytes: number;
}

/** Of the page that the session speaks for, after the collector. */
export async function heapSizes(client: CDPSession): Promise<HeapSizes> {
  const chunks: string[] = [];
  const hear = ({ chunk }: { chunk: string }) => chunks.push(chunk);
  client.on("HeapProfiler.addHeapSnapshotChunk", hear);
  await client.send("HeapProfiler.takeHeapSnapshot", { reportProgress: false });
  client.off("HeapProfiler.addHeapSnapshotChunk", hear);
  return sizesOf(JSON.parse(chunks.join("")) as Snapshot);
}

export function sizesOf({ snapshot, nodes }: Snapshot): HeapSizes {
  const { node_fields, node_types } = snapshot.meta;
  const [type, size] = [node_fields.indexOf("type"), node_fields.indexOf("self_size")];
  const code = (node_types[type] as readonly string[]).indexOf("code");
  const sizes = { held_bytes: 0, code_bytes: 0 };
  for (let at = 0; at < nodes.length; at += node_fields.length) {
    sizes[nodes[at + type] === code ? "code_bytes" : "held_bytes"] += nodes[at + size]!;
  }
  return sizes;
}
