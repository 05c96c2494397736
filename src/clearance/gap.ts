import { dropOldest } from "../maths/dropOldest.ts";
import { composePoses, invertPose, type Pose } from "../maths/pose.ts";
import type { Vec3 } from "../maths/vec3.ts";
import type { Poll } from "./kernel.ts";
import { createPairGauge, type PairGauge } from "./pairState.ts";
import type { TreeShelf } from "./sweepShelf.ts";
import type { Measure, SweepBody } from "./types.ts";

/** The gap of two whole bodies at one state. */
export interface Gap {
  /** Exact distance of the surfaces; minus the depth while they overlap; Infinity where a body has no surface. */
  readonly clearance_mm: number;
  readonly measure: Measure;
  /** Nearest points (while overlapping, those between which the depth runs), each in its own body's design position, mm. */
  readonly pointA: Vec3;
  readonly pointB: Vec3;
}

/** Gauges kept by the two bodies' content: each starts from where the last measure ended. */
const MOST_GAUGES = 64;

/** Measures gaps of pairs of bodies, state after state. Joints excuse nothing here: all of either surface counts. */
export class GapMeter {
  readonly #shelf: TreeShelf;
  readonly #gauges = new Map<string, { readonly trees: readonly [object, object]; readonly gauge: PairGauge }>();

  constructor(shelf: TreeShelf) {
    this.#shelf = shelf;
  }

  /** `poseA`, `poseB` take each body from its design position to where it is. What `poll` throws ends the measure. */
  measure(a: SweepBody, poseA: Pose, b: SweepBody, poseB: Pose, poll?: Poll): Gap {
    const { state, measure } = this.#gauge(a, b, poll);
    const relative = composePoses(invertPose(poseA), poseB);
    measure(relative);
    const back = invertPose(relative);
    const [x, y, z] = state.pointB as unknown as Vec3;
    const inB = (row: number) => back[row]! * x + back[row + 1]! * y + back[row + 2]! * z + back[row + 3]!;
    return {
      clearance_mm: state.clearance_mm,
      measure: state.measure,
      pointA: [state.pointA[0]!, state.pointA[1]!, state.pointA[2]!],
      pointB: [inB(0), inB(4), inB(8)],
    };
  }

  #gauge(a: SweepBody, b: SweepBody, poll: Poll | undefined) {
    const trees = [this.#shelf.prepare(a, poll).tree, this.#shelf.prepare(b, poll).tree] as const;
    const name = `${a.content} ${b.content}`;
    let kept = this.#gauges.get(name);
    // a tree that the shelf has let go of has given its memory back
    if (!kept || kept.trees[0] !== trees[0] || kept.trees[1] !== trees[1]) {
      // what polls belongs to one job: the gauge outlives it
      kept = { trees, gauge: createPairGauge(...trees) };
    }
    this.#gauges.delete(name);
    this.#gauges.set(name, kept);
    dropOldest(this.#gauges, MOST_GAUGES);
    const { gauge } = kept;
    return { state: gauge.state, measure: (relative: Pose) => gauge.measure(relative, false) };
  }
}
