import {
  buildTree,
  chooseKernel,
  createDistanceQuery,
  createWitness,
  type DistanceQuery,
  type KernelName,
  type QueryCounts,
  queryCounts,
  refitTree,
} from "../../src/clearance/kernel.ts";
import { sweepBelow } from "../../src/clearance/sweep.ts";
import { TreeShelf } from "../../src/clearance/sweepShelf.ts";
import type { SweepBody, SweepPair } from "../../src/clearance/types.ts";
import type { Query } from "./peers.ts";
import {
  type Detail,
  drawLink,
  HARD_POINTS,
  type HardPoints,
  LINK_ENDS,
  type LinkId,
  type PairSteps,
  pairsOf,
  type SyntheticCorner,
} from "./syntheticCorner.ts";

/** What a step starts from, and what it is asked. */
export interface StepsJob {
  /** Each step with the nearest triangles of the step before. */
  readonly warm: boolean;
  /** Only what is below the best of the steps before. */
  readonly onlySmallest: boolean;
  readonly cap_mm: number;
}

/** What distance queries do while a job runs. */
export function countsOf(work: () => void): QueryCounts {
  const before = queryCounts();
  work();
  const after = queryCounts();
  return {
    nodePairs: after.nodePairs - before.nodePairs,
    trianglePairs: after.trianglePairs - before.trianglePairs,
  };
}

/** The jobs of one corner, done by one of our kernels and the sweep. Trees are kept, as the app keeps them. */
export class OurJobs {
  private readonly kernel: KernelName;
  private readonly corner: SyntheticCorner;
  private readonly steps: readonly PairSteps[];
  private readonly shelf = new TreeShelf();
  private readonly queries: readonly DistanceQuery[];
  private readonly edits: readonly Edit[];
  private stateCount = 0;

  /** Links of as many edits are drawn beforehand. */
  constructor(corner: SyntheticCorner, steps: readonly PairSteps[], kernel: KernelName, editCount: number) {
    this.kernel = kernel;
    this.corner = corner;
    this.steps = steps;
    this.queries = steps.map(({ a, b }) => this.queryOf(a, b));
    this.edits = Array.from({ length: editCount }, (_, i) => editOf(i, corner.name as Detail));
  }

  /** As far as a query needs them: a compiled kernel holds a copy. */
  buildTrees(): void {
    chooseKernel(this.kernel);
    const shelf = new TreeShelf();
    for (const body of this.corner.bodies.values()) {
      const { tree } = shelf.prepare(body);
      createDistanceQuery(tree, tree);
    }
  }

  /** A tree for each of the links, each with an end 1 mm elsewhere. */
  buildLinks(): void {
    for (const { link } of this.edits.slice(0, LINK_COUNT)) buildTree(link.solid);
  }

  /** The same from the trees of the links as they were. */
  refitLinks(): void {
    for (const { link } of this.edits.slice(0, LINK_COUNT)) {
      const refitted = refitTree(this.shelf.prepare(this.corner.bodies.get(link.key)!).tree, link.solid);
      if (refitted === null) throw new Error(`the tree of ${link.key} does not take a move of 1 mm`);
    }
  }

  /** The smallest distance of every pair, mm; the cap where nothing was nearer. */
  runSteps({ warm, onlySmallest, cap_mm }: StepsJob): number[] {
    return this.steps.map(({ poses }, i) => {
      const query = this.queries[i]!;
      const witness = createWitness();
      let least = cap_mm;
      for (const pose of poses) {
        if (!warm) {
          witness.triangleA = -1;
          witness.triangleB = -1;
          witness.direction.fill(0);
        }
        const found = query.distance(pose, witness, onlySmallest ? least : cap_mm);
        if (found && witness.distance_mm < least) least = witness.distance_mm;
      }
      return least;
    });
  }

  /** The smallest clearance of every pair over the whole travel, as a check has it, mm. */
  sweepAll(cap_mm = Infinity): number[] {
    return this.corner.pairs.map((pair) => this.sweep(pair, this.corner.bodies, cap_mm));
  }

  /** One end of a link is 1 mm elsewhere, every motion stays: the link's tree is built and its pairs are swept again. */
  editLink(index: number, cap_mm: number): void {
    const { link } = this.edits[index]!;
    const alone = { ...link, content: `${link.content}, link alone, below ${cap_mm}` };
    const bodies = new Map([...this.corner.bodies, [link.key, alone]]);
    for (const pair of this.corner.pairs) {
      if (pair.a === link.key || pair.b === link.key) this.sweep(pair, bodies, cap_mm);
    }
  }

  /** The same end as a hard point: besides, the corner is solved anew and everything moves a little otherwise, so every pair is swept. */
  editPoint(index: number, cap_mm: number): void {
    const { link, points } = this.edits[index]!;
    const bodies = new Map([
      ...this.corner.bodies,
      [link.key, { ...link, content: `${link.content}, below ${cap_mm}` }],
    ]);
    for (const pair of pairsOf(points)) this.sweep(pair, bodies, cap_mm);
  }

  /** How many states that measures. */
  statesOf(work: () => void): number {
    this.stateCount = 0;
    work();
    return this.stateCount;
  }

  /** One query from nothing. */
  ask({ a, b, pose }: Query, cap_mm: number): number {
    const index = this.steps.findIndex((pair) => pair.a === a && pair.b === b);
    const witness = createWitness();
    this.queries[index]!.distance(pose, witness, cap_mm);
    return witness.distance_mm;
  }

  private queryOf(a: string, b: string): DistanceQuery {
    chooseKernel(this.kernel);
    const treeOf = (key: string) => this.shelf.prepare(this.corner.bodies.get(key)!).tree;
    return createDistanceQuery(treeOf(a), treeOf(b));
  }

  /** The smallest clearance over the whole travel, mm; the cap where nothing comes nearer. */
  private sweep(pair: SweepPair, bodies: ReadonlyMap<string, SweepBody>, cap_mm: number): number {
    chooseKernel(this.kernel);
    const isCancelled = () => this.stateCount++ < 0;
    const swept = sweepBelow(this.shelf, bodies.get(pair.a)!, bodies.get(pair.b)!, pair, cap_mm, { isCancelled });
    return swept?.clearance_mm ?? cap_mm;
  }
}

const LINK_COUNT = Object.keys(LINK_ENDS).length;

interface Edit {
  readonly points: HardPoints;
  readonly link: SweepBody;
}

/** One link after another, its end 1 mm along X, Y, Z, then back the other way. */
function editOf(index: number, detail: Detail): Edit {
  const ids = Object.keys(LINK_ENDS) as LinkId[];
  const id = ids[index % ids.length]!;
  const turn = Math.floor(index / ids.length);
  const [x, y, z] = HARD_POINTS[LINK_ENDS[id]];
  const by = turn % 6 < 3 ? 1 : -1;
  const along = (axis: number) => (turn % 3 === axis ? by : 0);
  const points = { ...HARD_POINTS, [LINK_ENDS[id]]: [x + along(0), y + along(1), z + along(2)] };
  return { points, link: { key: id, solid: drawLink(id, points, detail), content: `${detail} ${id}, edit ${index}` } };
}
