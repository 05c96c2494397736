import { POSE_SIZE, type Pose } from "../maths/pose.ts";
import type { Vec3 } from "../maths/vec3.ts";
import { type CarrierEquations, splitPose } from "./equations.ts";
import { Linearisation, UNKNOWN_COUNT } from "./linearisation.ts";

/** Newton stops below this residual. Coordinates of a metre leave rounding of some 1e-13 mm; 1e-9 mm is promised. */
const CONVERGED_mm = 1e-11;
/** A residual that has stopped falling is accepted below this. */
const PROMISED_mm = 1e-9;
const MOST_ITERATIONS = 12;
/** Turns are weighed as the movement they give at this distance from the wheel centre. */
export const REACH_mm = 300;
/**
 * How far one continuation step may reach: predicted carrier movement (5 mm is some 1° of turn), travel, and the share of
 * the prediction that Newton may correct; beyond, the step is halved, not trusted. With 20 mm, 10 mm and a half, one of
 * 13,500 random corners (every coordinate of usual ones moved by up to ±120 mm) stepped over two turning points at once
 * into another assembly mode; with these it stops at the first.
 */
const LARGEST_MOVE_mm = 5;
const LARGEST_STEP_mm = 2;
const CORRECTION_SHARE = 0.25;
/** A step this small that still fails is a lock. Far finer than the 0.01 mm to which a bind is told. */
const SMALLEST_STEP_mm = 1e-4;
/**
 * The farthest that the hub may go for each mm of the wheel's rise (a metre: some 190° of turn): beyond, the corner locks. Near a turning
 * point the rise fades with the root of what is left, so this is a few 0.0001 mm short of it. A corner whose rise fades and comes back
 * without turning is held by nothing that could lift the wheel there; whether a step of the travel got across hung on where the step began.
 */
export const LARGEST_RATE = 1000;

/** Numbers of a saved state. */
export const STATE_SIZE = 7;

/** What solving one travel comes to; a corner that cannot get there is an outcome, not an error. */
export interface SolveOutcome {
  /** "binds": the corner locks between ride height and this travel; the pose is the last one it reaches. */
  readonly status: "solved" | "binds";
  /** Travel of the pose. */
  readonly travel_mm: number;
  /** Largest residual of the constraint equations, evaluated anew from the pose's 12 numbers. */
  readonly residual_mm: number;
  readonly iterations: number;
  /** Carrier pose in the left frame. */
  readonly pose: Pose;
}

/** Rotation as a unit quaternion (w, x, y, z) and its matrix, and the wheel centre. */
class CarrierState {
  readonly quaternion = Float64Array.of(1, 0, 0, 0);
  readonly rotation = Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1);
  readonly centre = new Float64Array(3);

  copy(from: CarrierState): void {
    for (let k = 0; k < 4; k++) this.quaternion[k] = from.quaternion[k]!;
    for (let k = 0; k < 9; k++) this.rotation[k] = from.rotation[k]!;
    for (let k = 0; k < 3; k++) this.centre[k] = from.centre[k]!;
  }

  /** What CarrierSolver.saveState wrote. */
  load(saved: Float64Array, at: number): void {
    for (let k = 0; k < 4; k++) this.quaternion[k] = saved[at + k]!;
    for (let k = 0; k < 3; k++) this.centre[k] = saved[at + 4 + k]!;
    this.#turn();
  }

  /**
   * Moves by `share` of a step of the five unknowns. The turn is applied as the unit quaternion along (1, ω/2), which
   * agrees with the turn ω to second order: all that Newton needs, and the matrix stays a rotation to rounding.
   */
  move(step: Float64Array, share: number): void {
    const x = step[0]! * share * 0.5;
    const y = step[1]! * share * 0.5;
    const z = step[2]! * share * 0.5;
    const q = this.quaternion;
    const q0 = q[0]!;
    const q1 = q[1]!;
    const q2 = q[2]!;
    const q3 = q[3]!;
    let a = q0 - x * q1 - y * q2 - z * q3;
    let b = q1 + x * q0 + y * q3 - z * q2;
    let c = q2 + y * q0 + z * q1 - x * q3;
    let d = q3 + z * q0 + x * q2 - y * q1;
    const size = 1 / Math.sqrt(a * a + b * b + c * c + d * d);
    a *= size;
    b *= size;
    c *= size;
    d *= size;
    q[0] = a;
    q[1] = b;
    q[2] = c;
    q[3] = d;
    this.#turn();
    this.centre[0]! += step[3]! * share;
    this.centre[1]! += step[4]! * share;
  }

  /** The matrix of the quaternion. */
  #turn(): void {
    const r = this.rotation;
    const q = this.quaternion;
    const a = q[0]!;
    const b = q[1]!;
    const c = q[2]!;
    const d = q[3]!;
    r[0] = 1 - 2 * (c * c + d * d);
    r[1] = 2 * (b * c - a * d);
    r[2] = 2 * (b * d + a * c);
    r[3] = 2 * (b * c + a * d);
    r[4] = 1 - 2 * (b * b + d * d);
    r[5] = 2 * (c * d - a * b);
    r[6] = 2 * (b * d - a * c);
    r[7] = 2 * (c * d + a * b);
    r[8] = 1 - 2 * (b * b + c * c);
  }
}

/**
 * Follows the carrier along its travel by Newton's method with continuation. The unknowns are the turn and the wheel
 * centre's place forward and out; its height is given. A step is taken only if Newton's corrections stay small beside the
 * prediction and the Jacobian's determinant keeps its sign, so the solver cannot slip into the corner's other assembly
 * mode: where no step, however small, satisfies this, the corner locks (a turning point of the travel, or one in all but name:
 * LARGEST_RATE).
 */
export class CarrierSolver {
  readonly equations: CarrierEquations;
  iterations = 0;
  #travel_mm = 0;
  readonly #state = new CarrierState();
  readonly #trial = new CarrierState();
  readonly #ride = new CarrierState();
  readonly #here = new Linearisation();
  readonly #probe = new Linearisation();
  readonly #step = new Float64Array(UNKNOWN_COUNT);
  /** Of the unknowns by travel, where the solver stands. */
  readonly #rates = new Float64Array(UNKNOWN_COUNT);
  readonly #probeRotation = new Float64Array(9);
  readonly #probeCentre = new Float64Array(3);
  #side = 0;

  /** Starts in the drawn position, every mount as drawn. */
  constructor(equations: CarrierEquations) {
    this.equations = equations;
    this.#state.centre.set(equations.wheelCentre);
    this.#ride.copy(this.#state);
    this.#linearise();
    this.#side = this.#here.determinantSign;
  }

  /** Travel of the state in which the solver stands. */
  get travel_mm(): number {
    return this.#travel_mm;
  }

  /**
   * Takes the mounts from drawn to where they are now with the wheel at ride height, and makes that the state to which
   * `reset` returns. Gives the fraction of the way that the parts reach: 1, or less where they lock.
   */
  boltUp(): number {
    let reached = 0;
    let stride = this.equations.isMoved ? 0.25 : 1;
    while (reached < 1) {
      const next = Math.min(1, reached + stride);
      this.equations.mount(next);
      if (this.#settle(0)) {
        reached = next;
      } else {
        stride /= 2;
        if (stride < SMALLEST_STEP_mm) {
          this.equations.mount(reached);
          break;
        }
      }
    }
    this.#linearise();
    this.#ride.copy(this.#state);
    return reached;
  }

  /** Back to ride height. */
  reset(): void {
    this.#state.copy(this.#ride);
    this.#travel_mm = 0;
    this.#linearise();
  }

  /** Writes where the solver stands (STATE_SIZE numbers: quaternion, wheel centre) for `startFrom` of the solver of a corner like this one. */
  saveState(out: Float64Array, at: number): void {
    const { quaternion, centre } = this.#state;
    for (let k = 0; k < 4; k++) out[at + k] = quaternion[k]!;
    for (let k = 0; k < 3; k++) out[at + 4 + k] = centre[k]!;
  }

  /**
   * Puts the solver at a travel, from where a corner that differs a little stood there (saveState): Newton from that state,
   * under the same guards as a continuation step, so that it stays in this corner's own assembly mode. False, and nothing
   * has changed, where it does not get there: the states are too far apart, or the corner locks.
   */
  startFrom(saved: Float64Array, at: number, travel_mm: number): boolean {
    this.#trial.load(saved, at);
    this.#trial.centre[2] = this.equations.wheelCentre[2] + travel_mm;
    if (!this.#converge(LARGEST_MOVE_mm, LARGEST_RATE)) return false;
    this.#travel_mm = travel_mm;
    return true;
  }

  /**
   * Goes on from the present travel to `target_mm`. True when it got there; false when the corner locks on the way: the
   * solver then stands at the last travel it reached, within 0.0001 mm of the lock.
   */
  moveTo(target_mm: number): boolean {
    let stride = LARGEST_STEP_mm;
    while (this.#travel_mm !== target_mm) {
      const left = target_mm - this.#travel_mm;
      const rise = Math.abs(left) <= stride ? left : Math.sign(left) * stride;
      if (this.#settle(rise)) {
        this.#travel_mm = rise === left ? target_mm : this.#travel_mm + rise;
        stride = Math.min(LARGEST_STEP_mm, Math.abs(rise) * 2);
      } else {
        stride = Math.abs(rise) / 2;
        if (stride < SMALLEST_STEP_mm) return false;
      }
    }
    return true;
  }

  /** Writes the carrier's pose (left frame, 12 numbers) at `offset`. */
  writePose(out: Float64Array, offset = 0): void {
    const r = this.#state.rotation;
    const c = this.#state.centre;
    const p = this.equations.wheelCentre;
    for (let row = 0; row < 3; row++) {
      const a = r[row * 3]!;
      const b = r[row * 3 + 1]!;
      const d = r[row * 3 + 2]!;
      const at = offset + row * 4;
      out[at] = a;
      out[at + 1] = b;
      out[at + 2] = d;
      out[at + 3] = c[row]! - (a * p[0] + b * p[1] + d * p[2]);
    }
  }

  /** Solves one travel afresh from ride height. */
  solve(travel_mm: number): SolveOutcome {
    this.reset();
    this.iterations = 0;
    const status = this.moveTo(travel_mm) ? "solved" : "binds";
    const pose = new Float64Array(POSE_SIZE);
    this.writePose(pose);
    return {
      status,
      travel_mm: this.#travel_mm,
      residual_mm: this.equations.residual_mm(pose),
      iterations: this.iterations,
      pose,
    };
  }

  /**
   * The carrier's rates per mm of wheel travel at a pose of this corner, from the Jacobian: `turn` (rad/mm, car axes)
   * and `centre` (mm/mm, of the wheel centre). Null exactly at a lock, where they are infinite.
   */
  ratesAt(pose: Pose): CarrierRates | null {
    if (!this.#probeAt(pose)) return null;
    const rates = new Float64Array(UNKNOWN_COUNT);
    this.#probe.travelRates(rates);
    const [a, b, c, x, y] = rates as unknown as readonly [number, number, number, number, number];
    return { turn: [a, b, c], centre: [x, y, 1] };
  }

  /**
   * The carrier's rates at a pose of this corner, its height held, while the five residuals would go at `residualRates` (a mount that
   * moves: mountRates.ts). Null exactly at a lock.
   */
  responseAt(pose: Pose, residualRates: Float64Array): CarrierRates | null {
    if (!this.#probeAt(pose)) return null;
    const rates = new Float64Array(UNKNOWN_COUNT);
    this.#probe.response(residualRates, rates);
    const [a, b, c, x, y] = rates as unknown as readonly [number, number, number, number, number];
    return { turn: [a, b, c], centre: [x, y, 0] };
  }

  #probeAt(pose: Pose): boolean {
    splitPose(pose, this.equations.wheelCentre, this.#probeRotation, this.#probeCentre);
    this.equations.evaluate(this.#probeRotation, this.#probeCentre, this.#probe.residuals, this.#probe.jacobian);
    return this.#probe.factor();
  }

  #linearise(): void {
    this.equations.evaluate(this.#state.rotation, this.#state.centre, this.#here.residuals, this.#here.jacobian);
    if (this.#here.factor()) this.#here.travelRates(this.#rates);
  }

  /** One continuation step: true when the state (and its linearisation) has moved, false when nothing has changed. */
  #settle(rise: number): boolean {
    const here = this.#here;
    const trial = this.#trial;
    const rates = this.#rates;
    const { wheelCentre } = this.equations;
    if (here.determinantSign !== this.#side || this.#side === 0) return false;
    trial.copy(this.#state);
    // exact heights, so that travel never gathers rounding
    trial.centre[2] = wheelCentre[2] + this.#travel_mm + rise;
    // a corner that is drawn where it locks is told so by its travel, not by its mounts
    if (rise === 0) return this.#converge(LARGEST_MOVE_mm, Number.POSITIVE_INFINITY);
    const predicted = sizeOf(rates) * Math.abs(rise);
    if (!(predicted <= LARGEST_MOVE_mm)) return false;
    trial.move(rates, rise);
    return this.#converge((predicted + Math.abs(rise)) * CORRECTION_SHARE, LARGEST_RATE);
  }

  /**
   * Newton from the trial state, corrected by no more than is allowed; the state becomes what it comes to, or stays where that is none, or
   * goes on at more than the largest rate.
   */
  #converge(allowed: number, largestRate: number): boolean {
    const here = this.#here;
    const trial = this.#trial;
    const step = this.#step;
    let corrected = 0;
    let last = Number.POSITIVE_INFINITY;
    for (let i = 0; i < MOST_ITERATIONS; i++) {
      this.iterations++;
      this.equations.evaluate(trial.rotation, trial.centre, here.residuals, here.jacobian);
      const whole = here.factor() && here.determinantSign === this.#side;
      const residual = here.residual_mm;
      if (residual < CONVERGED_mm || (residual < PROMISED_mm && residual >= last * 0.5)) {
        if (!whole) break;
        here.travelRates(step);
        if (!(sizeOf(step) <= largestRate)) break;
        this.#state.copy(trial);
        for (let k = 0; k < UNKNOWN_COUNT; k++) this.#rates[k] = step[k]!;
        return true;
      }
      last = residual;
      if (here.determinantSign === 0) break;
      here.newtonStep(step);
      corrected += sizeOf(step);
      if (!(corrected <= allowed)) break;
      trial.move(step, 1);
    }
    this.#linearise();
    return false;
  }
}

export interface CarrierRates {
  readonly turn: Vec3;
  readonly centre: Vec3;
}

function sizeOf(step: Float64Array): number {
  const x = step[0]! * REACH_mm;
  const y = step[1]! * REACH_mm;
  const z = step[2]! * REACH_mm;
  const u = step[3]!;
  const v = step[4]!;
  return Math.sqrt(x * x + y * y + z * z + u * u + v * v);
}
