import type { Pose } from "../maths/pose.ts";
import type { Witness } from "./distance.ts";
import { createFrame, type Frame, placeFrame, turnFrame } from "./distanceBound.ts";
import { PLACED_SIZE, placeTriangle } from "./distancePlace.ts";
import type { CollisionTree } from "./tree.ts";
import { FITTED_SIZE } from "./treeFit.ts";
import { TRIANGLE_RESULT_SIZE, triangleDistance } from "./triangleDistance.ts";

/** A placed triangle and its least coordinates along the frame's direction and along the direction across. */
const SIZE = PLACED_SIZE + 2;

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
  /** Direction from A to B along which the pairs of triangles of two leaves are told apart. */
  private readonly across = new Float64Array(3);
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
      placeTriangle(this.b, hint.triangleB, frame, this.placed, 0);
      this.testPair(hint.triangleA, hint.triangleB, 0);
      // Even a pair that is too far shows the direction in which the two are apart now.
      if (this.result[0]! > 0) turnFrame(frame, this.across[0]!, this.across[1]!, this.across[2]!);
    }
  }

  test(nodeA: number, nodeB: number): void {
    const { a, b, best, frame, placed, across } = this;
    const triangles = a.triangles;
    const firstA = a.first[nodeA]!;
    const endA = firstA + a.count[nodeA]!;
    const firstB = b.first[nodeB]!;
    const countB = b.count[nodeB]!;
    for (let j = 0; j < countB; j++) placeTriangle(b, firstB + j, frame, placed, SIZE * j);
    this.lookAcross(nodeA, nodeB);
    this.measure(countB);
    let dx = frame[21]!;
    let dy = frame[22]!;
    let dz = frame[23]!;
    let ux = across[0]!;
    let uy = across[1]!;
    let uz = across[2]!;
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
      let reachD = Math.max(x0 * dx + y0 * dy + z0 * dz, x1 * dx + y1 * dy + z1 * dz, x2 * dx + y2 * dy + z2 * dz);
      let reachU = Math.max(x0 * ux + y0 * uy + z0 * uz, x1 * ux + y1 * uy + z1 * uz, x2 * ux + y2 * uy + z2 * uz);
      for (let j = 0, at = 0; j < countB; j++, at += SIZE) {
        const gap = Math.max(placed[at + PLACED_SIZE]! - reachD, placed[at + PLACED_SIZE + 1]! - reachU);
        if (gap > 0 && gap * gap >= best[0]!) continue;
        const apartX = Math.max(placed[at + 9]! - highX, lowX - placed[at + 12]!, 0);
        const apartY = Math.max(placed[at + 10]! - highY, lowY - placed[at + 13]!, 0);
        const apartZ = Math.max(placed[at + 11]! - highZ, lowZ - placed[at + 14]!, 0);
        if (apartX * apartX + apartY * apartY + apartZ * apartZ >= best[0]!) continue;
        this.testPair(i, firstB + j, at);
        if (best[0] === 0) return;
        // What separates these two most likely separates their neighbours.
        this.measure(countB);
        ux = across[0]!;
        uy = across[1]!;
        uz = across[2]!;
        dx = frame[21]!;
        dy = frame[22]!;
        dz = frame[23]!;
        reachD = Math.max(x0 * dx + y0 * dy + z0 * dz, x1 * dx + y1 * dy + z1 * dz, x2 * dx + y2 * dy + z2 * dz);
        reachU = Math.max(x0 * ux + y0 * uy + z0 * uz, x1 * ux + y1 * uy + z1 * uz, x2 * ux + y2 * uy + z2 * uz);
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

  /** Exact distance of a triangle of A and a placed one of B; looks along it from now on, and keeps it if it is the best. */
  private testPair(i: number, j: number, at: number): void {
    const { result, best, found, across } = this;
    triangleDistance(this.a.triangles, 9 * i, this.placed, at, result);
    const squared = result[0]!;
    const size = Math.sqrt(squared);
    if (size > 0) for (let k = 0; k < 3; k++) across[k] = (result[4 + k]! - result[1 + k]!) / size;
    if (squared >= best[0]!) return;
    best[0] = squared;
    this.triangleA = i;
    this.triangleB = j;
    for (let k = 0; k < 6; k++) found[k] = result[k + 1]!;
    if (size > 0) turnFrame(this.frame, across[0]!, across[1]!, across[2]!);
  }

  /** The direction in which two leaves most likely are apart: square to both of their surfaces, as far as they agree. */
  private lookAcross(nodeA: number, nodeB: number): void {
    const { a, b, frame, across } = this;
    const boxA = 6 * nodeA;
    const boxB = 6 * nodeB;
    const fitA = FITTED_SIZE * nodeA;
    const fitB = FITTED_SIZE * nodeB;
    let facingA = 0;
    let facingB = 0;
    for (let k = 0; k < 3; k++) {
      const row = 4 * k;
      const between =
        frame[row]! * b.boxes[boxB]! +
        frame[row + 1]! * b.boxes[boxB + 1]! +
        frame[row + 2]! * b.boxes[boxB + 2]! +
        frame[row + 3]! -
        a.boxes[boxA + k]!;
      const normalB =
        frame[row]! * b.fitted[fitB]! + frame[row + 1]! * b.fitted[fitB + 1]! + frame[row + 2]! * b.fitted[fitB + 2]!;
      across[k] = normalB;
      facingA += between * a.fitted[fitA + k]!;
      facingB += between * normalB;
    }
    for (let k = 0; k < 3; k++) {
      across[k] = (facingB < 0 ? -across[k]! : across[k]!) + (facingA < 0 ? -1 : 1) * a.fitted[fitA + k]!;
    }
    const size = Math.sqrt(across[0]! ** 2 + across[1]! ** 2 + across[2]! ** 2);
    if (size > 0) for (let k = 0; k < 3; k++) across[k] = across[k]! / size;
  }

  /** How near each placed triangle comes along the two directions. */
  private measure(count: number): void {
    const { frame, across, placed } = this;
    const dx = frame[21]!;
    const dy = frame[22]!;
    const dz = frame[23]!;
    const ux = across[0]!;
    const uy = across[1]!;
    const uz = across[2]!;
    for (let at = 0; at < SIZE * count; at += SIZE) {
      const x0 = placed[at]!;
      const y0 = placed[at + 1]!;
      const z0 = placed[at + 2]!;
      const x1 = placed[at + 3]!;
      const y1 = placed[at + 4]!;
      const z1 = placed[at + 5]!;
      const x2 = placed[at + 6]!;
      const y2 = placed[at + 7]!;
      const z2 = placed[at + 8]!;
      placed[at + PLACED_SIZE] = Math.min(
        x0 * dx + y0 * dy + z0 * dz,
        x1 * dx + y1 * dy + z1 * dz,
        x2 * dx + y2 * dy + z2 * dz,
      );
      placed[at + PLACED_SIZE + 1] = Math.min(
        x0 * ux + y0 * uy + z0 * uz,
        x1 * ux + y1 * uy + z1 * uz,
        x2 * ux + y2 * uy + z2 * uz,
      );
    }
  }
}
