import { createDistanceQuery, createWitness, type DistanceQuery } from "../../src/clearance/kernel.ts";
import { sweepPair } from "../../src/clearance/sweep.ts";
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

/** The jobs of one corner, done by our own kernel and sweep. Trees are kept, as the app keeps them. */
export class OurJobs {
  private readonly corner: SyntheticCorner;
  private readonly steps: readonly PairSteps[];
  private readonly shelf = new TreeShelf();
  private readonly queries: readonly DistanceQuery[];
  private editCount = 0;
  private stateCount = 0;

  constructor(corner: SyntheticCorner, steps: readonly PairSteps[]) {
    this.corner = corner;
    this.steps = steps;
    this.queries = steps.map(({ a, b }) => this.queryOf(a, b));
  }

  buildTrees(): void {
    const shelf = new TreeShelf();
    for (const body of this.corner.bodies.values()) shelf.prepare(body);
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
  sweepAll(): number[] {
    return this.corner.pairs.map((pair) => this.sweep(pair, this.corner.bodies).clearance_mm);
  }

  /** One end of a link 1 mm farther: the link is drawn anew, every motion stays, the pairs of that link are swept again. */
  editLink(index: number): void {
    const { id, points } = editOf(index);
    const bodies = this.bodiesWith(id, points);
    for (const pair of this.corner.pairs) if (pair.a === id || pair.b === id) this.sweep(pair, bodies);
  }

  /** The same end as a hard point: the corner is solved anew and everything moves a little otherwise, so every pair is swept. */
  editPoint(index: number): void {
    const { id, points } = editOf(index);
    const bodies = this.bodiesWith(id, points);
    for (const pair of pairsOf(points)) this.sweep(pair, bodies);
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
    const treeOf = (key: string) => this.shelf.prepare(this.corner.bodies.get(key)!).tree;
    return createDistanceQuery(treeOf(a), treeOf(b));
  }

  private sweep(pair: SweepPair, bodies: ReadonlyMap<string, SweepBody>) {
    const isCancelled = () => this.stateCount++ < 0;
    return sweepPair(this.shelf, bodies.get(pair.a)!, bodies.get(pair.b)!, pair, { isCancelled });
  }

  private bodiesWith(id: LinkId, points: HardPoints): ReadonlyMap<string, SweepBody> {
    const content = `${this.corner.name} ${id}, edit ${++this.editCount}`;
    const solid = drawLink(id, points, this.corner.name as Detail);
    return new Map([...this.corner.bodies, [id, { key: id, solid, content }]]);
  }
}

/** One link after another, its end 1 mm along X, Y, Z, then back the other way. */
function editOf(index: number): { id: LinkId; points: HardPoints } {
  const ids = Object.keys(LINK_ENDS) as LinkId[];
  const id = ids[index % ids.length]!;
  const turn = Math.floor(index / ids.length);
  const [x, y, z] = HARD_POINTS[LINK_ENDS[id]];
  const by = turn % 6 < 3 ? 1 : -1;
  const along = (axis: number) => (turn % 3 === axis ? by : 0);
  return { id, points: { ...HARD_POINTS, [LINK_ENDS[id]]: [x + along(0), y + along(1), z + along(2)] } };
}
