import type { Pacer } from "../maths/poll.ts";
import type { Pose } from "../maths/pose.ts";
import { type Leeway, leastWithin, NO_LEEWAY, type Witness } from "./distance.ts";
import { createFrame, type Frame, placeFrame, turnFrame } from "./distanceBound.ts";
import { PLACED_SIZE, placeTriangle } from "./distancePlace.ts";
import type { CollisionTree } from "./tree.ts";
import { FITTED_SIZE } from "./treeFit.ts";
import { TRIANGLE_RESULT_SIZE, triangleDistance } from "./triangleDistance.ts";

/** The state of one distance query and its innermost step. */
export interface LeafTest {
  /** [0]: square of the smallest distance so far, mm². */
  readonly best: Float64Array;
  /** [0]: square of the distance below which pairs are looked for, mm²: the best or, with leeway, less. */
  readonly limit: Float64Array;
  /** Its direction is that of the best pair so far, or the hint's. */
  readonly frame: Frame;
  /** Pairs of triangles measured since the start of the query. */
  readonly tested: number;
  start(relative: Pose, hint: Witness, below_mm: number, leeway: Leeway): void;
  /** Tests all pairs of triangles of two leaves. */
  test(nodeA: number, nodeB: number): void;
  /** Writes the result into the witness; whether any pair was below the limit. */
  finish(witness: Witness, below_mm: number): boolean;
}

/** The pacer is for leaves of very many coincident triangles; the others are soon done. */
export function createLeafTest(a: CollisionTree, b: CollisionTree, pacer: Pacer): LeafTest {
  return new TreeLeafTest(a, b, pacer);
}

const MANY = 256;
/** So many triangles are told apart along a line in the time of one pair's distance. */
const LOOKS = 16;

/** Lines along which the triangles of two leaves are told apart: the frame's direction, and one of the leaves' own. */
const BEST = 0;
const OWN = 1;

/**
 * What two distances may differ by and count as equal, as a share of the coordinates along the line: where faces lie
 * parallel, very many pairs are as far as the best, and rounding alone would make half of them candidates.
 */
const EQUAL = 1e-13;

class TreeLeafTest implements LeafTest {
  readonly best = new Float64Array(1);
  readonly limit = new Float64Array(1);
  private leeway = NO_LEEWAY;
  readonly frame = createFrame();
  private readonly a: CollisionTree;
  private readonly b: CollisionTree;
  /** B's triangles of the leaf, in A's axes, as far as they were needed. */
  private readonly placed: Float64Array;
  private readonly isPlaced: Uint8Array;
  private readonly result = new Float64Array(TRIANGLE_RESULT_SIZE);
  private readonly found = new Float64Array(6);
  /** The leaves' own line: a unit vector from A to B, A's axes. */
  private readonly own = new Float64Array(3);
  /** How far each triangle of A reaches along either line, and where each of B begins. */
  private readonly endOfA: Float64Array;
  private readonly startOfB: Float64Array;
  private triangleA = -1;
  private triangleB = -1;
  tested = 0;
  private readonly pacer: Pacer;

  constructor(a: CollisionTree, b: CollisionTree, pacer: Pacer) {
    this.a = a;
    this.b = b;
    this.pacer = pacer;
    this.placed = new Float64Array(PLACED_SIZE * Math.max(1, b.largestLeaf));
    this.isPlaced = new Uint8Array(b.largestLeaf);
    this.endOfA = new Float64Array(2 * a.largestLeaf);
    this.startOfB = new Float64Array(2 * b.largestLeaf);
  }

  start(relative: Pose, hint: Witness, below_mm: number, leeway: Leeway): void {
    const { frame, best, own } = this;
    placeFrame(frame, relative);
    best[0] = below_mm * below_mm;
    this.limit[0] = best[0];
    this.leeway = leeway;
    this.triangleA = -1;
    this.triangleB = -1;
    this.tested = 0;
    turnFrame(frame, hint.direction[0]!, hint.direction[1]!, hint.direction[2]!);
    if (hint.triangleA >= 0 && hint.triangleB >= 0) {
      placeTriangle(this.b, hint.triangleB, frame, this.placed, 0);
      this.testPair(hint.triangleA, hint.triangleB, 0);
      // Even a pair that is too far shows the direction in which the two are apart now.
      if (this.result[0]! > 0) turnFrame(frame, own[0]!, own[1]!, own[2]!);
    }
  }

  test(nodeA: number, nodeB: number): void {
    const { a, b, best, limit, frame, placed, isPlaced, endOfA, startOfB } = this;
    const firstA = a.first[nodeA]!;
    const countA = a.count[nodeA]!;
    const firstB = b.first[nodeB]!;
    const countB = b.count[nodeB]!;
    if (this.areApart(BEST, firstA, countA, firstB, countB)) return;
    this.lookAcross(nodeA, nodeB);
    if (this.areApart(OWN, firstA, countA, firstB, countB)) return;
    isPlaced.fill(0, 0, countB);
    const isLarge = countA + countB > MANY;
    for (let i = 0; i < countA; i++) {
      if (isLarge) this.pacer.spend(countB / LOOKS);
      for (let j = 0; j < countB; j++) {
        const gap = Math.max(startOfB[j]! - endOfA[i]!, startOfB[countB + j]! - endOfA[countA + i]!);
        if (gap > 0 && gap * gap >= limit[0]!) continue;
        if (isPlaced[j] === 0) {
          isPlaced[j] = 1;
          placeTriangle(b, firstB + j, frame, placed, PLACED_SIZE * j);
        }
        const isBetter = this.testPair(firstA + i, firstB + j, PLACED_SIZE * j);
        if (best[0] === 0) return;
        if (isLarge) this.pacer.spend((countA + countB) / LOOKS);
        // What separates these two most likely separates their neighbours.
        if (this.areApart(OWN, firstA, countA, firstB, countB)) return;
        if (isBetter && this.areApart(BEST, firstA, countA, firstB, countB)) return;
      }
    }
  }

  finish(witness: Witness, below_mm: number): boolean {
    const { frame, found, best } = this;
    for (let k = 0; k < 3; k++) witness.direction[k] = frame[21 + k]!;
    if (this.triangleA < 0) {
      witness.distance_mm = below_mm;
      witness.least_mm = below_mm;
      return false;
    }
    witness.distance_mm = Math.sqrt(best[0]!);
    witness.least_mm = leastWithin(witness.distance_mm, this.leeway);
    witness.triangleA = this.triangleA;
    witness.triangleB = this.triangleB;
    for (let k = 0; k < 3; k++) {
      witness.pointA[k] = found[k]!;
      witness.pointB[k] = found[3 + k]!;
    }
    return true;
  }

  /** Exact distance of a triangle of A and a placed one of B, whose direction becomes the leaves' own; true if it is the best so far. */
  private testPair(i: number, j: number, at: number): boolean {
    const { result, best, found, own } = this;
    triangleDistance(this.a.triangles, 9 * i, this.placed, at, result);
    this.tested++;
    const squared = result[0]!;
    const size = Math.sqrt(squared);
    if (size > 0) for (let k = 0; k < 3; k++) own[k] = (result[4 + k]! - result[1 + k]!) / size;
    if (squared >= best[0]!) return false;
    best[0] = squared;
    this.limit[0] = leastWithin(size, this.leeway) ** 2;
    this.triangleA = i;
    this.triangleB = j;
    for (let k = 0; k < 6; k++) found[k] = result[k + 1]!;
    if (size > 0) turnFrame(this.frame, own[0]!, own[1]!, own[2]!);
    return true;
  }

  /** Measures the triangles of two leaves along one of the lines; true if that alone shows that none are nearer than the best. */
  private areApart(line: number, firstA: number, countA: number, firstB: number, countB: number): boolean {
    const { a, b, frame, own, endOfA, startOfB } = this;
    const ux = line === BEST ? frame[21]! : own[0]!;
    const uy = line === BEST ? frame[22]! : own[1]!;
    const uz = line === BEST ? frame[23]! : own[2]!;
    const t = a.triangles;
    let endOfAll = Number.NEGATIVE_INFINITY;
    let k = 9 * firstA;
    for (let i = 0; i < countA; i++, k += 9) {
      const end = Math.max(
        t[k]! * ux + t[k + 1]! * uy + t[k + 2]! * uz,
        t[k + 3]! * ux + t[k + 4]! * uy + t[k + 5]! * uz,
        t[k + 6]! * ux + t[k + 7]! * uy + t[k + 8]! * uz,
      );
      endOfA[line * countA + i] = end;
      if (end > endOfAll) endOfAll = end;
    }
    // The same line in B's axes.
    const wx = ux * frame[0]! + uy * frame[4]! + uz * frame[8]!;
    const wy = ux * frame[1]! + uy * frame[5]! + uz * frame[9]!;
    const wz = ux * frame[2]! + uy * frame[6]! + uz * frame[10]!;
    const shift = ux * frame[3]! + uy * frame[7]! + uz * frame[11]!;
    const s = b.triangles;
    let startOfAll = Number.POSITIVE_INFINITY;
    k = 9 * firstB;
    for (let j = 0; j < countB; j++, k += 9) {
      const start =
        shift +
        Math.min(
          s[k]! * wx + s[k + 1]! * wy + s[k + 2]! * wz,
          s[k + 3]! * wx + s[k + 4]! * wy + s[k + 5]! * wz,
          s[k + 6]! * wx + s[k + 7]! * wy + s[k + 8]! * wz,
        );
      startOfB[line * countB + j] = start;
      if (start < startOfAll) startOfAll = start;
    }
    const gap = startOfAll - endOfAll + EQUAL * (Math.abs(startOfAll) + Math.abs(endOfAll));
    return gap > 0 && gap * gap >= this.limit[0]!;
  }

  /** The direction in which two leaves most likely are apart: square to both of their surfaces, as far as they agree. */
  private lookAcross(nodeA: number, nodeB: number): void {
    const { a, b, frame, own } = this;
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
      own[k] = normalB;
      facingA += between * a.fitted[fitA + k]!;
      facingB += between * normalB;
    }
    for (let k = 0; k < 3; k++) {
      own[k] = (facingB < 0 ? -own[k]! : own[k]!) + (facingA < 0 ? -1 : 1) * a.fitted[fitA + k]!;
    }
    const size = Math.sqrt(own[0]! ** 2 + own[1]! ** 2 + own[2]! ** 2);
    if (size > 0) for (let k = 0; k < 3; k++) own[k] = own[k]! / size;
  }
}
