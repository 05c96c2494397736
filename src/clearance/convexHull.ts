import type { ConvexDifference } from "./convexDifference.ts";

/** Room to begin with, and the end of growing: bodies of thousands of corners, concentric, need some thousand points. */
const FIRST_POINTS = 128;
const MOST_POINTS = 16384;
/** Points within this share of the size from a face's plane lie in it: float64 leaves about 1e-15. */
const FLAT = 1e-12;

/**
 * A growing convex hull of points of a difference, by faces that each know their plane and their neighbours. A face's
 * `height` is the origin's depth below its plane: negative if the origin is outside it.
 */
export class GrowingHull {
  points = new Float64Array();
  indexA = new Int32Array();
  indexB = new Int32Array();
  /** 3 a face, counter-clockwise from outside; the edge from corner k to the next has the neighbour 3·face + k. */
  corners = new Int32Array();
  normals = new Float64Array();
  heights = new Float64Array();
  alive = new Uint8Array();
  faceEnd = 0;
  pointCount = 0;
  private neighbours = new Int32Array();
  private free = new Int32Array();
  private freeCount = 0;
  private visible = new Int32Array();
  /** Edges around the visible faces: the corner each starts at leads to its far corner, the face beyond and the one made there. */
  private edgeEnd = new Int32Array();
  private edgeBeyond = new Int32Array();
  private faceFrom = new Int32Array();
  private tolerance = 0;

  constructor() {
    this.makeRoom(FIRST_POINTS);
  }

  /**
   * Starts anew with a tetrahedron of far points of the difference. False if the difference is flat; its plane's normal
   * is then left in the difference's direction.
   */
  start(difference: ConvexDifference): boolean {
    this.pointCount = 0;
    this.faceEnd = 0;
    this.freeCount = 0;
    this.tolerance = FLAT * difference.scale;
    const { direction } = difference;
    const p = this.points;
    // The two farthest along the axes, the farthest from their line, the farthest from the plane of the three.
    let widest = -1;
    let axis = 0;
    for (let k = 0; k < 3; k++) {
      const width = this.reach(difference, k, 1) + this.reach(difference, k, -1);
      if (width <= widest) continue;
      widest = width;
      axis = k;
    }
    this.reach(difference, axis, 1);
    this.addPoint(difference);
    this.reach(difference, axis, -1);
    this.addPoint(difference);
    const [ux, uy, uz] = [p[3]! - p[0]!, p[4]! - p[1]!, p[5]! - p[2]!];
    if (!this.addFarthestFrom(difference, ux, uy, uz)) return false;
    const [vx, vy, vz] = [p[6]! - p[0]!, p[7]! - p[1]!, p[8]! - p[2]!];
    const normal = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    const size = Math.hypot(normal[0]!, normal[1]!, normal[2]!);
    for (let side = 1; side >= -1; side -= 2) {
      for (let k = 0; k < 3; k++) direction[k] = (side * normal[k]!) / size;
      difference.support();
      const f = difference.farthest;
      const away = direction[0]! * (f[0]! - p[0]!) + direction[1]! * (f[1]! - p[1]!) + direction[2]! * (f[2]! - p[2]!);
      if (away <= 1e3 * this.tolerance) continue;
      this.addPoint(difference);
      this.closeTetrahedron(side > 0);
      return true;
    }
    return false;
  }

  /** Grows by the difference's farthest point, which sticks out of the face. False if it could not (no room, or rounding). */
  grow(difference: ConvexDifference, face: number): boolean {
    if (this.pointCount === this.indexA.length) {
      if (this.pointCount >= MOST_POINTS) return false;
      this.makeRoom(2 * this.pointCount);
    }
    const { corners, neighbours, alive, visible, edgeEnd, edgeBeyond, faceFrom } = this;
    const [x, y, z] = [difference.farthest[0]!, difference.farthest[1]!, difference.farthest[2]!];
    // Flood from the face over all that the point sees; what lies in its plane goes too, which leaves no slivers.
    let count = 1;
    visible[0] = face;
    alive[face] = 2;
    let firstEdge = -1;
    let edgeCount = 0;
    for (let next = 0; next < count; next++) {
      const from = visible[next]!;
      for (let k = 0; k < 3; k++) {
        const other = neighbours[3 * from + k]!;
        if (alive[other] === 2) continue;
        if (this.sees(other, x, y, z)) {
          alive[other] = 2;
          visible[count++] = other;
        }
      }
    }
    for (let next = 0; next < count; next++) {
      const from = visible[next]!;
      for (let k = 0; k < 3; k++) {
        const other = neighbours[3 * from + k]!;
        if (alive[other] === 2) continue;
        firstEdge = corners[3 * from + k]!;
        edgeEnd[firstEdge] = corners[3 * from + ((k + 1) % 3)]!;
        edgeBeyond[firstEdge] = other;
        edgeCount++;
      }
    }
    if (!this.isLoop(firstEdge, edgeCount)) {
      for (let k = 0; k < count; k++) alive[visible[k]!] = 1;
      return false;
    }
    for (let k = 0; k < count; k++) {
      alive[visible[k]!] = 0;
      this.free[this.freeCount++] = visible[k]!;
    }
    const tip = this.addPoint(difference);
    let start = firstEdge;
    for (let k = 0; k < edgeCount; k++) {
      const made = this.addFace(start, edgeEnd[start]!, tip);
      const beyond = edgeBeyond[start]!;
      neighbours[3 * made] = beyond;
      for (let side = 0; side < 3; side++) {
        if (corners[3 * beyond + side] === edgeEnd[start] && corners[3 * beyond + ((side + 1) % 3)] === start) {
          neighbours[3 * beyond + side] = made;
        }
      }
      faceFrom[start] = made;
      start = edgeEnd[start]!;
    }
    for (let k = 0; k < edgeCount; k++) {
      const after = edgeEnd[start]!;
      neighbours[3 * faceFrom[start]! + 1] = faceFrom[after]!;
      neighbours[3 * faceFrom[after]! + 2] = faceFrom[start]!;
      start = after;
    }
    return true;
  }

  /** Whether the difference's farthest point is a corner of the face already: then rounding alone sets it apart. */
  isCorner(face: number, difference: ConvexDifference): boolean {
    for (let k = 0; k < 3; k++) {
      const corner = this.corners[3 * face + k]!;
      if (this.indexA[corner] === difference.indexA && this.indexB[corner] === difference.indexB) return true;
    }
    return false;
  }

  /** A closed surface of n points has 2·n − 4 faces; a few more are counted while faces are exchanged. */
  private makeRoom(points: number): void {
    const faces = 2 * points + 8;
    this.points = copied(this.points, new Float64Array(3 * points));
    this.indexA = copied(this.indexA, new Int32Array(points));
    this.indexB = copied(this.indexB, new Int32Array(points));
    this.corners = copied(this.corners, new Int32Array(3 * faces));
    this.normals = copied(this.normals, new Float64Array(3 * faces));
    this.heights = copied(this.heights, new Float64Array(faces));
    this.alive = copied(this.alive, new Uint8Array(faces));
    this.neighbours = copied(this.neighbours, new Int32Array(3 * faces));
    this.free = copied(this.free, new Int32Array(faces));
    this.visible = new Int32Array(faces);
    this.edgeEnd = new Int32Array(points);
    this.edgeBeyond = new Int32Array(points);
    this.faceFrom = new Int32Array(points);
  }

  private sees(face: number, x: number, y: number, z: number): boolean {
    const { normals, heights } = this;
    const above = normals[3 * face]! * x + normals[3 * face + 1]! * y + normals[3 * face + 2]! * z - heights[face]!;
    return !(above < -this.tolerance);
  }

  private isLoop(start: number, count: number): boolean {
    let at = start;
    for (let k = 0; k < count; k++) {
      at = this.edgeEnd[at]!;
      if (at === start) return k === count - 1;
    }
    return false;
  }

  private reach(difference: ConvexDifference, axis: number, sign: number): number {
    difference.direction.fill(0);
    difference.direction[axis] = sign;
    difference.support();
    return sign * difference.farthest[axis]!;
  }

  /** Adds the point farthest from the line along u through the first point; false if all lie on it. */
  private addFarthestFrom(difference: ConvexDifference, ux: number, uy: number, uz: number): boolean {
    const { direction, farthest } = difference;
    const p = this.points;
    const uu = ux * ux + uy * uy + uz * uz;
    let best = 1e3 * this.tolerance;
    let bestAxis = -1;
    let bestSign = 0;
    for (let trial = 0; trial < 7; trial++) {
      const axis = trial === 6 ? bestAxis : trial >> 1;
      const sign = trial === 6 ? bestSign : trial & 1 ? -1 : 1;
      if (axis < 0) break;
      // the axis less its part along the line
      const along = (sign * [ux, uy, uz][axis]!) / (uu || 1);
      direction[0] = -along * ux;
      direction[1] = -along * uy;
      direction[2] = -along * uz;
      direction[axis] = direction[axis]! + sign;
      const size = Math.hypot(direction[0]!, direction[1]!, direction[2]!);
      if (size < 0.1) continue;
      for (let k = 0; k < 3; k++) direction[k] = direction[k]! / size;
      difference.support();
      const away =
        direction[0]! * (farthest[0]! - p[0]!) +
        direction[1]! * (farthest[1]! - p[1]!) +
        direction[2]! * (farthest[2]! - p[2]!);
      if (trial === 6) {
        this.addPoint(difference);
        return true;
      }
      if (away <= best) continue;
      best = away;
      bestAxis = axis;
      bestSign = sign;
    }
    return false;
  }

  private closeTetrahedron(above: boolean): void {
    const a = 0;
    const b = above ? 2 : 1;
    const c = above ? 1 : 2;
    const d = 3;
    // d lies on the back of a, b, c.
    this.addFace(a, b, c);
    this.addFace(a, d, b);
    this.addFace(b, d, c);
    this.addFace(c, d, a);
    this.neighbours.set([1, 2, 3, 3, 2, 0, 1, 3, 0, 2, 1, 0]);
  }

  private addPoint(difference: ConvexDifference): number {
    const at = this.pointCount++;
    for (let k = 0; k < 3; k++) this.points[3 * at + k] = difference.farthest[k]!;
    this.indexA[at] = difference.indexA;
    this.indexB[at] = difference.indexB;
    return at;
  }

  private addFace(a: number, b: number, c: number): number {
    const { points: p, corners, normals, heights } = this;
    const face = this.freeCount > 0 ? this.free[--this.freeCount]! : this.faceEnd++;
    corners[3 * face] = a;
    corners[3 * face + 1] = b;
    corners[3 * face + 2] = c;
    const [ux, uy, uz] = [p[3 * b]! - p[3 * a]!, p[3 * b + 1]! - p[3 * a + 1]!, p[3 * b + 2]! - p[3 * a + 2]!];
    const [vx, vy, vz] = [p[3 * c]! - p[3 * a]!, p[3 * c + 1]! - p[3 * a + 1]!, p[3 * c + 2]! - p[3 * a + 2]!];
    const nx = uy * vz - uz * vy;
    const ny = uz * vx - ux * vz;
    const nz = ux * vy - uy * vx;
    const size = Math.sqrt(nx * nx + ny * ny + nz * nz);
    normals[3 * face] = nx / size;
    normals[3 * face + 1] = ny / size;
    normals[3 * face + 2] = nz / size;
    // A face without area gets NaN: it counts as seen from everywhere, and never as the lowest.
    heights[face] = (nx * p[3 * a]! + ny * p[3 * a + 1]! + nz * p[3 * a + 2]!) / size;
    this.alive[face] = 1;
    return face;
  }
}

function copied<T extends Float64Array | Int32Array | Uint8Array>(from: T, into: T): T {
  into.set(from);
  return into;
}
