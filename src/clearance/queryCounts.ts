/** What distance queries have done, in either kernel: the work that does not depend on the machine. */
export interface QueryCounts {
  /** Pairs of nodes whose distance was bounded. */
  readonly nodePairs: number;
  /** Pairs of triangles whose exact distance was measured. */
  readonly trianglePairs: number;
}

let nodePairs = 0;
let trianglePairs = 0;

/** Counted since the start, of finished queries: what a job costs is the difference between two calls. */
export function queryCounts(): QueryCounts {
  return { nodePairs, trianglePairs };
}

/** For the kernels: once a query, so that counting costs nothing. */
export function countQuery(nodes: number, triangles: number): void {
  nodePairs += nodes;
  trianglePairs += triangles;
}
