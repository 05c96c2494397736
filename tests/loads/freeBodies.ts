import { Matrix, solve } from "ml-matrix";
import type { Corner } from "../../src/kinematics/corner.ts";
import type { WheelLoad } from "../../src/loads/forces.ts";
import { applyPose, POSE_SIZE, type Pose, turnByPose } from "../../src/maths/pose.ts";
import { add, cross, dot, normalise, scale, subtract, type Vec3 } from "../../src/maths/vec3.ts";

const AXES: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
const REACH = 300;

/**
 * The same corner as one plain system of linear equations: six for the hub and for every link and wishbone by itself,
 * three unknowns for every joint, one for the damper, and where equilibrium leaves a choice the equation that takes it
 * (equal thrusts of two bushes on a line, no force along a strut). Nothing is taken out beforehand. Left frame; no shaft.
 */
export class FreeBodies {
  readonly matrix: Matrix;
  private readonly rows = new Map<string, number>();
  private readonly columns: { joint: string; force: Vec3 }[] = [];
  private readonly contact: Vec3;
  private readonly centre: Vec3;
  private readonly spin: Vec3;
  private readonly entries: [row: number, column: number, value: number][] = [];
  private rowCount = 0;

  constructor({ scene, rider }: Corner, carrier: Pose, contact: Vec3) {
    this.contact = contact;
    this.centre = applyPose(carrier, scene.wheel.centre);
    const [t, c] = [scene.wheel.toe_deg, scene.wheel.camber_deg].map((angle) => (angle * Math.PI) / 180);
    this.spin = turnByPose(carrier, [Math.sin(t!) * Math.cos(c!), Math.cos(t!) * Math.cos(c!), -Math.sin(c!)]);
    this.body("carrier");
    const moved = (p: Vec3) => applyPose(carrier, p);
    for (const member of scene.members) {
      const { id } = member;
      if (member.kind === "link") {
        this.body(id);
        this.ball(`${id}.inboard`, member.inboardMounted, null, id);
        this.ball(`${id}.outboard`, moved(member.outboard), id, "carrier");
        this.couple(id, normalise(subtract(moved(member.outboard), member.inboardMounted)));
      } else if (member.kind === "wishbone") {
        this.body(id);
        const axis = normalise(subtract(member.frontMounted, member.rearMounted));
        const front = this.ball(`${id}.front`, member.frontMounted, null, id);
        const rear = this.ball(`${id}.rear`, member.rearMounted, null, id);
        this.ball(`${id}.outboard`, moved(member.outboard), id, "carrier");
        this.equation([
          ...axis.map((part, k): [number, number] => [front + k, part]),
          ...axis.map((part, k): [number, number] => [rear + k, -part]),
        ]);
      } else if (member.kind === "ball") this.ball(`${id}.at`, member.atMounted, null, "carrier");
      else if (member.kind === "hinge") {
        const axis = normalise(subtract(member.frontMounted, member.rearMounted));
        const front = this.ball(`${id}.front`, member.frontMounted, null, "carrier");
        const rear = this.ball(`${id}.rear`, member.rearMounted, null, "carrier");
        this.equation([
          ...axis.map((part, k): [number, number] => [front + k, part]),
          ...axis.map((part, k): [number, number] => [rear + k, -part]),
        ]);
      } else {
        const top = this.ball(`${id}.top`, member.topMounted, null, "carrier");
        const axis = turnByPose(carrier, normalise(subtract(member.top, member.bottom)));
        this.equation(axis.map((part, k) => [top + k, part]));
      }
    }
    const damper = scene.damper!;
    const foot = applyPose(rider(damper.on).pose(carrier, new Float64Array(POSE_SIZE)), damper.bottom);
    const push = normalise(subtract(foot, damper.topMounted));
    const column = this.column("damper", push);
    this.act(this.rows.get(damper.on) ?? 0, column, foot, push);
    this.matrix = Matrix.zeros(this.rowCount, this.columns.length);
    for (const [row, at, value] of this.entries) this.matrix.set(row, at, this.matrix.get(row, at) + value);
  }

  rightSide(load: WheelLoad): Matrix {
    const right = Matrix.zeros(this.rowCount, 1);
    const moment = cross(subtract(this.contact, this.centre), load.force_N);
    const held = load.torque === "carrier" ? 0 : dot(moment, this.spin);
    for (let k = 0; k < 3; k++) {
      right.set(k, 0, -load.force_N[k]!);
      right.set(k + 3, 0, -(moment[k]! - held * this.spin[k]!) / REACH);
    }
    return right;
  }

  /** Forces by joint as the first part acts on the second; "damper" along it. */
  solve(load: WheelLoad): Map<string, Vec3> {
    return this.forces(solve(this.matrix, this.rightSide(load)));
  }

  forces(found: Matrix): Map<string, Vec3> {
    const forces = new Map<string, Vec3>();
    this.columns.forEach(({ joint, force }, i) => {
      forces.set(joint, add(forces.get(joint) ?? [0, 0, 0], scale(force, found.get(i, 0))));
    });
    return forces;
  }

  private body(id: string): void {
    this.rows.set(id, this.rowCount);
    this.rowCount += 6;
  }

  private equation(terms: readonly (readonly [column: number, value: number])[]): void {
    for (const [column, value] of terms) this.entries.push([this.rowCount, column, value]);
    this.rowCount++;
  }

  private column(joint: string, force: Vec3): number {
    this.columns.push({ joint, force });
    return this.columns.length - 1;
  }

  private ball(joint: string, at: Vec3, first: string | null, second: string): number {
    const start = this.columns.length;
    for (const axis of AXES) {
      const column = this.column(joint, axis);
      this.act(this.rows.get(second)!, column, at, axis);
      if (first) this.act(this.rows.get(first)!, column, at, scale(axis, -1));
    }
    return start;
  }

  private couple(body: string, axis: Vec3): void {
    const column = this.column(`${body}.spin`, axis);
    for (let k = 0; k < 3; k++) this.entries.push([this.rows.get(body)! + 3 + k, column, axis[k]!]);
  }

  private act(row: number, column: number, at: Vec3, force: Vec3): void {
    const moment = cross(subtract(at, this.centre), force);
    for (let k = 0; k < 3; k++) {
      this.entries.push([row + k, column, force[k]!], [row + 3 + k, column, moment[k]! / REACH]);
    }
  }
}
