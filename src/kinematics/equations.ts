import type { Pose } from "../maths/pose.ts";
import {
  add,
  cross,
  distance,
  dot,
  length,
  mix,
  normalise,
  scale,
  squareTo,
  subtract,
  type Vec3,
} from "../maths/vec3.ts";
import { InputError } from "../scene/error.ts";
import type { Member, Scene } from "../scene/scene.ts";

/** Constraint equations that a corner has: six freedoms of the carrier less the one of travel. */
export const EQUATION_COUNT = 5;
/** Unknowns of the carrier: small turn about the car axes through the wheel centre (rad), then the wheel centre (mm). */
export const FREEDOM_COUNT = 6;

/** How many of the carrier's six freedoms a member takes. */
export const CONSTRAINTS_OF_KIND: Readonly<Record<Member["kind"], number>> = {
  link: 1,
  wishbone: 2,
  strut: 2,
  ball: 3,
  hinge: 5,
};

const SPHERE = 0;
const PLANE = 1;
const SQUARE = 2;
const LINE = 3;

/** Numbers of one equation in `data`; the meaning of each is told beside the function that writes it. */
const STRIDE = 7;

/**
 * The five equations that the members put on the carrier, in the left frame, and their exact derivatives.
 *
 * The carrier's state is a rotation R (row by row, 9 numbers) and the wheel centre c (3 numbers, mm): a carrier point
 * drawn at p stands at c + R·(p − wheel.centre). Residuals are lengths in mm. With a small turn ω and a shift δ the
 * point moves by δ + ω × R·(p − wheel.centre), from which every row of the Jacobian follows.
 */
export class CarrierEquations {
  readonly wheelCentre: Vec3;
  /** Whether any mount is elsewhere than it is drawn. */
  readonly isMoved: boolean;
  readonly #members: readonly Member[];
  readonly #kind = new Uint8Array(EQUATION_COUNT);
  readonly #data = new Float64Array(EQUATION_COUNT * STRIDE);
  #row = 0;

  /** Throws InputError "constraints" when the members do not make five, "zero-length" when one has no extent. */
  constructor(scene: Scene) {
    this.wheelCentre = scene.wheel.centre;
    this.#members = scene.members;
    requireFive(scene.members);
    for (const [index, member] of scene.members.entries()) requireExtent(member, `members[${index}]`);
    this.mount(1);
    const moved = this.#data.slice();
    this.mount(0);
    this.isMoved = this.#data.some((value, i) => value !== moved[i]);
  }

  /** Puts the chassis-side mounts the fraction 0 (as drawn) to 1 (where they are now) of the way; parts keep their lengths. */
  mount(fraction: number): void {
    this.#row = 0;
    for (const member of this.#members) this.#addMember(member, fraction);
  }

  /** Writes 5 residuals (mm) and the 5×6 Jacobian (row by row: 3 columns mm per rad, 3 columns mm per mm). */
  evaluate(rotation: Float64Array, centre: Float64Array, residuals: Float64Array, jacobian: Float64Array): void {
    const r0 = rotation[0]!;
    const r1 = rotation[1]!;
    const r2 = rotation[2]!;
    const r3 = rotation[3]!;
    const r4 = rotation[4]!;
    const r5 = rotation[5]!;
    const r6 = rotation[6]!;
    const r7 = rotation[7]!;
    const r8 = rotation[8]!;
    const cx = centre[0]!;
    const cy = centre[1]!;
    const cz = centre[2]!;
    const data = this.#data;
    for (let row = 0; row < EQUATION_COUNT; row++) {
      const at = row * STRIDE;
      const px = data[at]!;
      const py = data[at + 1]!;
      const pz = data[at + 2]!;
      const ax = data[at + 3]!;
      const ay = data[at + 4]!;
      const az = data[at + 5]!;
      const last = data[at + 6]!;
      // the carrier's own vector, turned into the car
      const x = r0 * px + r1 * py + r2 * pz;
      const y = r3 * px + r4 * py + r5 * pz;
      const z = r6 * px + r7 * py + r8 * pz;
      const kind = this.#kind[row]!;
      let gx = 0;
      let gy = 0;
      let gz = 0;
      let tx = x;
      let ty = y;
      let tz = z;
      if (kind === SPHERE) {
        const ux = cx + x - ax;
        const uy = cy + y - ay;
        const uz = cz + z - az;
        residuals[row] = (ux * ux + uy * uy + uz * uz - last * last) / (2 * last);
        gx = ux / last;
        gy = uy / last;
        gz = uz / last;
      } else if (kind === PLANE) {
        residuals[row] = ax * (cx + x) + ay * (cy + y) + az * (cz + z) - last;
        gx = ax;
        gy = ay;
        gz = az;
      } else if (kind === SQUARE) {
        residuals[row] = ax * x + ay * y + az * z;
        gx = ax;
        gy = ay;
        gz = az;
      } else {
        // (R·n)·(T − c) − n·b; its gradient by c is −R·n, by the turn (R·n) × (T − c)
        const wx = ax - cx;
        const wy = ay - cy;
        const wz = az - cz;
        residuals[row] = x * wx + y * wy + z * wz - last;
        gx = -x;
        gy = -y;
        gz = -z;
        tx = wx;
        ty = wy;
        tz = wz;
      }
      const to = row * FREEDOM_COUNT;
      jacobian[to] = ty * gz - tz * gy;
      jacobian[to + 1] = tz * gx - tx * gz;
      jacobian[to + 2] = tx * gy - ty * gx;
      const slides = kind !== SQUARE;
      jacobian[to + 3] = slides ? gx : 0;
      jacobian[to + 4] = slides ? gy : 0;
      jacobian[to + 5] = slides ? gz : 0;
    }
  }

  /** The largest residual (mm) of a carrier pose in the left frame. */
  residual_mm(pose: Pose): number {
    const rotation = new Float64Array(9);
    const centre = new Float64Array(3);
    const residuals = new Float64Array(EQUATION_COUNT);
    splitPose(pose, this.wheelCentre, rotation, centre);
    this.evaluate(rotation, centre, residuals, new Float64Array(EQUATION_COUNT * FREEDOM_COUNT));
    return residuals.reduce((worst, value) => Math.max(worst, Math.abs(value)), 0);
  }

  #addMember(member: Member, fraction: number): void {
    switch (member.kind) {
      case "link": {
        const anchor = mix(member.inboard, member.inboardMounted, fraction);
        this.#addSphere(member.outboard, anchor, distance(member.inboard, member.outboard));
        return;
      }
      case "wishbone": {
        // the outboard joint's circle: a sphere about its centre, cut by the plane square to the axis
        const drawn = circleOf(member.front, member.rear, member.outboard);
        const front = mix(member.front, member.frontMounted, fraction);
        const rear = mix(member.rear, member.rearMounted, fraction);
        const axis = normalise(subtract(front, rear));
        const centre = add(mix(front, rear, 0.5), scale(axis, drawn.along_mm));
        this.#addSphere(member.outboard, centre, drawn.radius_mm);
        this.#addPlane(member.outboard, centre, axis);
        return;
      }
      case "ball":
        this.#addPoint(member.at, mix(member.at, member.atMounted, fraction));
        return;
      case "hinge": {
        const front = mix(member.front, member.frontMounted, fraction);
        const rear = mix(member.rear, member.rearMounted, fraction);
        this.#addPoint(mix(member.front, member.rear, 0.5), mix(front, rear, 0.5));
        const axis = normalise(subtract(front, rear));
        const across = squareTo(axis);
        const drawn = scale(subtract(member.front, member.rear), 0.5);
        this.#addSquare(drawn, across);
        this.#addSquare(drawn, cross(axis, across));
        return;
      }
      case "strut": {
        const top = mix(member.top, member.topMounted, fraction);
        const axis = normalise(subtract(member.top, member.bottom));
        const across = squareTo(axis);
        this.#addLine(across, member.bottom, top);
        this.#addLine(cross(axis, across), member.bottom, top);
      }
    }
  }

  #addPoint(point: Vec3, anchor: Vec3): void {
    this.#addPlane(point, anchor, [1, 0, 0]);
    this.#addPlane(point, anchor, [0, 1, 0]);
    this.#addPlane(point, anchor, [0, 0, 1]);
  }

  /** |x − anchor| = radius */
  #addSphere(point: Vec3, anchor: Vec3, radius_mm: number): void {
    this.#add(SPHERE, subtract(point, this.wheelCentre), anchor, radius_mm);
  }

  /** normal · (x − anchor) = 0 */
  #addPlane(point: Vec3, anchor: Vec3, normal: Vec3): void {
    this.#add(PLANE, subtract(point, this.wheelCentre), normal, dot(normal, anchor));
  }

  /** A carrier vector (mm long) stays square to a chassis direction. */
  #addSquare(vector: Vec3, direction: Vec3): void {
    this.#add(SQUARE, vector, direction, 0);
  }

  /** A chassis point stays in the carrier's plane through `point` with the carrier's `normal`. */
  #addLine(normal: Vec3, point: Vec3, chassisPoint: Vec3): void {
    this.#add(LINE, normal, chassisPoint, dot(normal, subtract(point, this.wheelCentre)));
  }

  #add(kind: number, carrier: Vec3, chassis: Vec3, last: number): void {
    const at = this.#row * STRIDE;
    this.#kind[this.#row] = kind;
    this.#data.set(carrier, at);
    this.#data.set(chassis, at + 3);
    this.#data[at + 6] = last;
    this.#row++;
  }
}

/** A wishbone's outboard joint about its inboard line: radius, and how far along from the line's middle towards the front. */
export function circleOf(front: Vec3, rear: Vec3, outboard: Vec3): { radius_mm: number; along_mm: number } {
  const axis = normalise(subtract(front, rear));
  const arm = subtract(outboard, mix(front, rear, 0.5));
  const along_mm = dot(arm, axis);
  return { radius_mm: length(subtract(arm, scale(axis, along_mm))), along_mm };
}

/** Rotation and wheel centre of a carrier pose. */
export function splitPose(pose: Pose, wheelCentre: Vec3, rotation: Float64Array, centre: Float64Array): void {
  for (let row = 0; row < 3; row++) {
    const at = row * 4;
    const a = pose[at]!;
    const b = pose[at + 1]!;
    const c = pose[at + 2]!;
    rotation[row * 3] = a;
    rotation[row * 3 + 1] = b;
    rotation[row * 3 + 2] = c;
    centre[row] = a * wheelCentre[0] + b * wheelCentre[1] + c * wheelCentre[2] + pose[at + 3]!;
  }
}

function requireFive(members: readonly Member[]): void {
  const count = members.reduce((sum, member) => sum + CONSTRAINTS_OF_KIND[member.kind], 0);
  if (count === EQUATION_COUNT) return;
  const each = members.map((member) => `${member.id}: ${member.kind} ${CONSTRAINTS_OF_KIND[member.kind]}`).join(", ");
  const effect = count < EQUATION_COUNT ? "the wheel stays loose" : "the wheel cannot travel";
  throw new InputError(
    "constraints",
    { path: "members" },
    `the members take ${count} of the wheel's six freedoms (${each || "no member"}); ${effect}`,
    `${EQUATION_COUNT} in all: link 1, wishbone 2, strut 2, ball 3, hinge 5`,
  );
}

function requireExtent(member: Member, path: string): void {
  const short = (wrong: string, wanted: string) => new InputError("zero-length", { path }, wrong, wanted);
  if (member.kind === "link" && distance(member.inboard, member.outboard) === 0)
    throw short(`link ${member.id} has no length`, "inboard and outboard apart");
  if (member.kind === "strut" && distance(member.top, member.bottom) === 0)
    throw short(`strut ${member.id} has no length`, "top and bottom apart");
  if (member.kind !== "wishbone" && member.kind !== "hinge") return;
  if (distance(member.front, member.rear) === 0 || distance(member.frontMounted, member.rearMounted) === 0)
    throw short(`${member.kind} ${member.id} has no axis`, "front and rear apart");
  if (member.kind === "wishbone" && circleOf(member.front, member.rear, member.outboard).radius_mm < 1e-6)
    throw short(`wishbone ${member.id} has its outboard joint on its own axis`, "outboard off the line front to rear");
}
