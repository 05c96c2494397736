import type { Vec3 } from "../maths/vec3.ts";
import type { Scene } from "../scene/scene.ts";
import type { JointLoad, PointForce } from "./forces.ts";

/** Force and moment: numbers of one body's sum. */
const SUM_SIZE = 6;
const CARRIER = 0;
/** Chassis and powertrain are not bodies here: they take what comes. */
const GROUND = -1;

/**
 * Adds up anew, from the joints' loads alone, everything that acts on each body of a corner: what is left over is 0 but
 * for rounding. Hub, ball, hinge and strut parts are one body, the two halves of the damper another. Holds a workspace.
 */
export class LeftOver {
  private readonly bodies = new Map<string, number>();
  private count = 1;
  private readonly sums: Float64Array;

  constructor({ members }: Scene) {
    for (const name of ["chassis", "powertrain"]) this.bodies.set(name, GROUND);
    this.bodies.set("carrier", CARRIER);
    for (const { id, kind } of members)
      this.bodies.set(id, kind === "link" || kind === "wishbone" ? this.count++ : CARRIER);
    const damper = this.count++;
    for (const half of ["damper-upper", "damper-lower"]) this.bodies.set(half, damper);
    for (const part of ["driveshaft", "bar", "bar-link"]) this.bodies.set(part, this.count++);
    this.sums = new Float64Array(SUM_SIZE * this.count);
  }

  /**
   * Worst force, N, and worst moment, N·mm, about `about`, a place near all of them. `ground` acts on the carrier (hub and
   * wheel with it); `held_Nmm` is a couple on it that no joint passes: the wheel's own inertia where it spins free.
   */
  of(
    joints: readonly JointLoad[],
    ground: PointForce,
    held_Nmm: Vec3,
    about: Vec3,
  ): { residual_N: number; residual_Nmm: number } {
    const { sums } = this;
    sums.fill(0);
    for (const { between, at, force_N, moment_Nmm } of joints) {
      this.act(this.bodies.get(between[0])!, at, force_N, moment_Nmm, about, -1);
      this.act(this.bodies.get(between[1])!, at, force_N, moment_Nmm, about, 1);
    }
    this.act(CARRIER, ground.at, ground.force_N, held_Nmm, about, 1);
    let force = 0;
    let moment = 0;
    for (let k = 0; k < sums.length; k += SUM_SIZE) {
      force = Math.max(force, sums[k]! ** 2 + sums[k + 1]! ** 2 + sums[k + 2]! ** 2);
      moment = Math.max(moment, sums[k + 3]! ** 2 + sums[k + 4]! ** 2 + sums[k + 5]! ** 2);
    }
    return { residual_N: Math.sqrt(force), residual_Nmm: Math.sqrt(moment) };
  }

  private act(body: number, at: Vec3, force: Vec3, couple: Vec3, about: Vec3, sign: number): void {
    if (body === GROUND) return;
    const { sums } = this;
    const k = body * SUM_SIZE;
    const x = at[0] - about[0];
    const y = at[1] - about[1];
    const z = at[2] - about[2];
    sums[k]! += sign * force[0];
    sums[k + 1]! += sign * force[1];
    sums[k + 2]! += sign * force[2];
    sums[k + 3]! += sign * (y * force[2] - z * force[1] + couple[0]);
    sums[k + 4]! += sign * (z * force[0] - x * force[2] + couple[1]);
    sums[k + 5]! += sign * (x * force[1] - y * force[0] + couple[2]);
  }
}
