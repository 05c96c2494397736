import type { Pose } from "../maths/pose.ts";
import type { Witness } from "./distance.ts";
import { createFrame, type Frame, placeFrame, turnFrame } from "./distanceBound.ts";
import { PLACED_SIZE, placeTriangle } from "./distancePlace.ts";
import type { CollisionTree } from "./tree.ts";
import { TRIANGLE_RESULT_SIZE, triangleDistance } from "./triangleDistance.ts";

/** A placed triangle and its least coordinate along the frame's direction. */
const SIZE = PLACED_SIZE + 1;

/** The state of one distance query and its innermost step. */
export interface LeafTest {
  /** [0]: square of the smallest distance so far, mm². */
  readonly best: Float64Array;
  /** Its direction is that of the best pair so far, or the hint's. */
  readonly frame: Frame;
  start(relative: Pose, hint: Witness, below_mm: number): void;
  /** Tests all pairs of triangles of two leaves. */
  test(nodeA: number, nodeB: number): void;
  /** Writes the result into the witness; whether any pair was below the limit. */
  finish(witness: Witness, below_mm: number): boolean;
}

export function createLeafTest(a: CollisionTree, b: CollisionTree): LeafTest {
  return new TreeLeafTest(a, b);
}

class TreeLeafTest implements LeafTest {
  readonly best = new Float64Array(1);
  readonly frame = createFrame();
  private readonly a: CollisionTree;
  private readonly b: CollisionTree;
  private readonly placed: Float64Array;
  private readonly result = new Float64Array(TRIANGLE_RESULT_SIZE);
  private readonly found = new Float64Array(6);
  private triangleA = -1;
  private triangleB = -1;

  constructor(a: CollisionTree, b: CollisionTree) {
    this.a = a;
    this.b = b;
    this.placed = new Float64Array(SIZE * Math.max(1, b.largestLeaf));
  }

  start(relative: Pose, hint: Witness, below_mm: number): void {
    const { frame, best } = this;
    placeFrame(frame, relative);
    best[0] = below_mm * below_mm;
    this.triangleA = -1;
    this.triangleB = -1;
    turnFrame(frame, hint.direction[0]!, hint.direction[1]!, hint.direction[2]!);
    if (hint.triangleA >= 0 && hint.triangleB >= 0) {
      this.place(hint.triangleB, 0);
      // Even a pair that is too far shows the direction in which the two are apart now.
      if (!this.testPair(hint.triangleA, hint.triangleB, 0)) this.turnToResult();
    }
  }

  test(nodeA: number, nodeB: number): void {
    const { a, b, best, frame, placed } = this;
    const triangles = a.triangles;
    const firstA = a.first[nodeA]!;
    const endA = firstA + a.count[nodeA]!;
    const firstB = b.first[nodeB]!;
    const endB = firstB + b.count[nodeB]!;
    for (let j = firstB; j < endB; j++) this.place(j, SIZE * (j - firstB));
    for (let i = firstA; i < endA; i++) {
      const k = 9 * i;
      const x0 = triangles[k]!;
      const y0 = triangles[k + 1]!;
      const z0 = triangles[k + 2]!;
      const x1 = triangles[k + 3]!;
      const y1 = triangles[k + 4]!;
      const z1 = triangles[k + 5]!;
      const x2 = triangles[k + 6]!;
      const y2 = triangles[k + 7]!;
      const z2 = triangles[k + 8]!;
      const lowX = Math.min(x0, x1, x2);
      const lowY = Math.min(y0, y1, y2);
      const lowZ = Math.min(z0, z1, z2);
      const highX = Math.max(x0, x1, x2);
      const highY = Math.max(y0, y1, y2);
      const highZ = Math.max(z0, z1, z2);
      let ux = frame[21]!;
      let uy = frame[22]!;
      let uz = frame[23]!;
      let reach = Math.max(x0 * ux + y0 * uy + z0 * uz, x1 * ux + y1 * uy + z1 * uz, x2 * ux + y2 * uy + z2 * uz);
      for (let j = firstB, at = 0; j < endB; j++, at += SIZE) {
        const gap = placed[at + 15]! - reach;
        if (gap > 0 && gap * gap >= best[0]!) continue;
        const dx = Math.max(placed[at + 9]! - highX, lowX - placed[at + 12]!, 0);
        const dy = Math.max(placed[at + 10]! - highY, lowY - placed[at + 13]!, 0);
        const dz = Math.max(placed[at + 11]! - highZ, lowZ - placed[at + 14]!, 0);
        if (dx * dx + dy * dy + dz * dz >= best[0]!) continue;
        if (!this.testPair(i, j, at)) continue;
        if (best[0] === 0) return;
        // The direction has turned: what was measured along the old one no longer counts.
        this.measure(endB - firstB);
        ux = frame[21]!;
        uy = frame[22]!;
        uz = frame[23]!;
        reach = Math.max(x0 * ux + y0 * uy + z0 * uz, x1 * ux + y1 * uy + z1 * uz, x2 * ux + y2 * uy + z2 * uz);
      }
    }
  }

  finish(witness: Witness, below_mm: number): boolean {
    const { frame, found, best } = this;
    for (let k = 0; k < 3; k++) witness.direction[k] = frame[21 + k]!;
    if (this.triangleA < 0) {
      witness.distance_mm = below_mm;
      return false;
    }
    witness.distance_mm = Math.sqrt(best[0]!);
    witness.triangleA = this.triangleA;
    witness.triangleB = this.triangleB;
    for (let k = 0; k < 3; k++) {
      witness.pointA[k] = found[k]!;
      witness.pointB[k] = found[3 + k]!;
    }
    return true;
  }

  /** Exact distance of a triangle of A and a placed one of B; true if it is the best so far. */
  private testPair(i: number, j: number, at: number): boolean {
    const { result, best, found } = this;
    triangleDistance(this.a.triangles, 9 * i, this.placed, at, result);
    if (result[0]! >= best[0]!) return false;
    best[0] = result[0]!;
    this.triangleA = i;
    this.triangleB = j;
    for (let k = 0; k < 6; k++) found[k] = result[k + 1]!;
    this.turnToResult();
    return true;
  }

  private turnToResult(): void {
    const { result, frame } = this;
    const size = Math.sqrt(result[0]!);
    if (size === 0) return;
    turnFrame(
      frame,
      (result[4]! - result[1]!) / size,
      (result[5]! - result[2]!) / size,
      (result[6]! - result[3]!) / size,
    );
  }

  private place(j: number, at: number): void {
    const { frame, placed } = this;
    placeTriangle(this.b, j, frame, placed, at);
    this.measureOne(at);
  }

  private measure(count: number): void {
    for (let j = 0; j < count; j++) this.measureOne(SIZE * j);
  }

  private measureOne(at: number): void {
    const { frame, placed } = this;
    const x = frame[21]!;
    const y = frame[22]!;
    const z = frame[23]!;
    placed[at + 15] = Math.min(
      placed[at]! * x + placed[at + 1]! * y + placed[at + 2]! * z,
      placed[at + 3]! * x + placed[at + 4]! * y + placed[at + 5]! * z,
      placed[at + 6]! * x + placed[at + 7]! * y + placed[at + 8]! * z,
    );
  }
}
