import { levenbergMarquardt } from "ml-levenberg-marquardt";
import { Matrix, SingularValueDecomposition } from "ml-matrix";
import { applyPose, type Pose } from "../../src/maths/pose.ts";
import { add, cross, distance, dot, mix, normalise, scale, subtract, type Vec3 } from "../../src/maths/vec3.ts";
import type { Member, Scene } from "../../src/scene/scene.ts";

/** Of the three points beside the wheel centre that carry the hub. */
const REACH_mm = 200;
const BESIDE: readonly Vec3[] = [
  [0, 0, 0],
  [REACH_mm, 0, 0],
  [0, REACH_mm, 0],
  [0, 0, REACH_mm],
];
const UNKNOWNS = 12;
/** Residuals of some 1e-11 mm. */
const CONVERGED_mm2 = 1e-22;
/** Lengths of two mounts nearer to each other than this are one. */
const SAME_mm = 1e-9;
const LARGEST_STEP_mm = 20;
/** In the space of the twelve unknowns, where all four points rising by 20 mm are 40. */
const LARGEST_MOVE_mm = 60;
const SMALLEST_STEP_mm = 1e-3;
const FINE_mm = 2e-11;
/** A place that leaves more than this is none. */
const WRONG_mm = 1e-9;
/** A step is taken only where the place found is this near to the one foreseen, as a share of the way: no other way of assembly is. */
const CORRECTION_SHARE = 0.2;

type Row = (q: readonly number[]) => number;
type Place = (q: readonly number[]) => Vec3;

/**
 * A second way to the hub's place that has nothing of the program's own: natural coordinates (J. García de Jalón, E. Bayo,
 * Kinematic and Dynamic Simulation of Multibody Systems, Springer 1994, chapter 2; from memory). The hub is four points that keep
 * their distances, 12 unknowns in mm; what the members say is written of points and lengths. Every equation is a polynomial of at most
 * the second degree, so that central differences are its exact derivatives. A general least-squares library
 * (ml-levenberg-marquardt) finds the points; there are more equations than unknowns.
 */
export class SecondSolver {
  /** Of what the last step left, root of the sum of squares, mm. */
  misfit_mm = 0;
  travel_mm = 0;
  #q: number[];
  readonly #passed: { readonly travel_mm: number; readonly q: number[] }[] = [];
  readonly #scene: Scene;
  readonly #base: readonly Vec3[];
  #members: Row[] = [];

  constructor(scene: Scene) {
    this.#scene = scene;
    const { centre } = scene.wheel;
    this.#base = BESIDE.map((by) => add(centre, by));
    this.#q = this.#base.flat();
    this.#mount(0);
  }

  /** Takes the mounts to where they are now, the wheel at ride height. */
  boltUp(): void {
    for (let step = 1; step <= 8; step++) {
      this.#mount(step / 8);
      this.#q = this.#solve(this.#q, this.#height(this.travel_mm));
    }
  }

  /** Puts the hub where a pose has it; gives what its raw equations leave, root of the sum of squares, mm. */
  standAt(pose: Pose): number {
    this.#q = this.#base.flatMap((p) => applyPose(pose, p));
    this.travel_mm = this.#q[2]! - this.#scene.wheel.centre[2];
    return Math.hypot(...this.#rows().map((row) => row(this.#q)));
  }

  /** Where the hub's point drawn at `p` stands. */
  at(p: Vec3): Vec3 {
    return this.#carried(p)(this.#q);
  }

  /** Goes on to a travel in short steps; false where it does not get there, at the last one that it reached. */
  moveTo(travel_mm: number): boolean {
    let stride = LARGEST_STEP_mm;
    while (this.travel_mm !== travel_mm) {
      const left = travel_mm - this.travel_mm;
      const to = Math.abs(left) <= stride ? travel_mm : this.travel_mm + Math.sign(left) * stride;
      const from = this.travel_mm;
      if (this.#step(to)) {
        stride = Math.min(LARGEST_STEP_mm, 2 * Math.abs(to - from));
        continue;
      }
      stride /= 2;
      if (stride < SMALLEST_STEP_mm) return false;
    }
    // the library's damping may have grown on the way: it begins anew
    for (let again = 0; again < 5 && (again === 0 || this.misfit_mm > FINE_mm); again++)
      this.#q = this.#solve(this.#q, this.#height(travel_mm));
    return true;
  }

  /** The wheel centre's rise, mm a mm, along the way that the members leave, all four points counted: 0 where the corner locks. */
  rise(): number {
    const way = this.#way();
    return way[2]!;
  }

  /** The travels at which the corner stands when it is taken so far both ways along what the members leave. */
  beside(way_mm: number): number[] {
    const way = this.#way();
    const start = this.#q;
    return [way_mm, -way_mm].map((by) => {
      const guess = start.map((value, i) => value + by * way[i]!);
      const along: Row = (q) => q.reduce((sum, value, i) => sum + (value - start[i]!) * way[i]!, 0) - by;
      const there = this.#solve(guess, along);
      return there[2]! - this.#scene.wheel.centre[2];
    });
  }

  /** How far the hub may be off, as the root of the sum of squares of all unknowns, for each mm that the equations leave. */
  perMisfit(): number {
    const rows = [...this.#rows(), this.#height(this.travel_mm)];
    return 1 / new SingularValueDecomposition(this.#slopes(rows)).diagonal.at(-1)!;
  }

  #step(to_mm: number): boolean {
    const guess = this.#foreseen(to_mm);
    const found = this.#solve(guess, this.#height(to_mm));
    const moved = between(found, this.#q);
    if (this.misfit_mm > WRONG_mm || moved > LARGEST_MOVE_mm) return false;
    if (between(found, guess) > CORRECTION_SHARE * moved + 1e-6) return false;
    this.#passed.push({ travel_mm: this.travel_mm, q: this.#q });
    this.#q = found;
    this.travel_mm = to_mm;
    return true;
  }

  /** The parabola through the last three places, or as much of that as there is. */
  #foreseen(to_mm: number): number[] {
    const last = [...this.#passed.slice(-2), { travel_mm: this.travel_mm, q: this.#q }];
    // what three places far off foresee of a short step is worth little
    if (last.length === 1 || Math.abs(to_mm - this.travel_mm) < LARGEST_STEP_mm / 4) {
      const way = this.#way();
      return this.#q.map((value, i) => value + ((to_mm - this.travel_mm) / way[2]!) * way[i]!);
    }
    return this.#q.map((_, i) =>
      last.reduce((sum, { travel_mm, q }) => {
        const others = last.filter((other) => other.travel_mm !== travel_mm);
        const share = others.reduce(
          (product, other) => (product * (to_mm - other.travel_mm)) / (travel_mm - other.travel_mm),
          1,
        );
        return sum + share * q[i]!;
      }, 0),
    );
  }

  /** The unit direction in the 12 unknowns that the members leave: the last right singular vector. */
  #way(): number[] {
    // the library gives all twelve directions only where there are as many rows
    const jacobian = this.#slopes([...this.#rows(), () => 0]);
    const { rightSingularVectors } = new SingularValueDecomposition(jacobian);
    return rightSingularVectors.getColumn(UNKNOWNS - 1);
  }

  #slopes(rows: readonly Row[]): Matrix {
    return new Matrix(rows.map((row) => slopes(row, this.#q)));
  }

  #solve(guess: readonly number[], last: Row): number[] {
    const rows = [...this.#rows(), last];
    const found = levenbergMarquardt(
      { x: rows.map((_, i) => i), y: rows.map(() => 0) },
      (q) => {
        const values = rows.map((row) => row(q));
        return (i) => values[i]!;
      },
      {
        initialValues: guess,
        damping: 1e-6,
        gradientDifference: 1,
        centralDifference: true,
        errorTolerance: CONVERGED_mm2,
        maxIterations: 60,
      },
    );
    this.misfit_mm = Math.sqrt(found.parameterError);
    return found.parameterValues;
  }

  #height(travel_mm: number): Row {
    const height = this.#scene.wheel.centre[2] + travel_mm;
    return (q) => q[2]! - height;
  }

  #rows(): Row[] {
    const rows: Row[] = [];
    for (let i = 0; i < 4; i++)
      for (let j = i + 1; j < 4; j++) rows.push(apart(corner(i), corner(j), distance(this.#base[i]!, this.#base[j]!)));
    return [...rows, ...this.#members];
  }

  /** A hub point as a fixed sum of the four. */
  #carried(p: Vec3): Place {
    const [a, b, c] = scale(subtract(p, this.#base[0]!), 1 / REACH_mm);
    const shares = [1 - a! - b! - c!, a!, b!, c!];
    return (q) => [0, 1, 2].map((k) => shares.reduce((sum, share, i) => sum + share * q[3 * i + k]!, 0)) as Triple;
  }

  #mount(share: number): void {
    this.#members = this.#scene.members.flatMap((member) => this.#says(member, share));
  }

  #says(member: Member, share: number): Row[] {
    switch (member.kind) {
      case "link": {
        const anchor = still(mix(member.inboard, member.inboardMounted, share));
        return [apart(this.#carried(member.outboard), anchor, distance(member.inboard, member.outboard))];
      }
      case "ball":
        return stays(this.#carried(member.at), mix(member.at, member.atMounted, share));
      case "wishbone": {
        const [front, rear] = [
          mix(member.front, member.frontMounted, share),
          mix(member.rear, member.rearMounted, share),
        ];
        const out = this.#carried(member.outboard);
        if (Math.abs(distance(front, rear) - distance(member.front, member.rear)) < SAME_mm)
          return [
            apart(out, still(front), distance(member.front, member.outboard)),
            apart(out, still(rear), distance(member.rear, member.outboard)),
          ];
        // mounts that went apart or together: the arm keeps its circle about the middle of its line
        const middle = mix(front, rear, 0.5);
        const drawnMiddle = mix(member.front, member.rear, 0.5);
        const along = dot(subtract(member.outboard, drawnMiddle), normalise(subtract(member.front, member.rear)));
        const axis = normalise(subtract(front, rear));
        return [
          apart(out, still(middle), distance(drawnMiddle, member.outboard)),
          (q) => dot(subtract(out(q), middle), axis) - along,
        ];
      }
      case "hinge": {
        const [front, rear] = [
          mix(member.front, member.frontMounted, share),
          mix(member.rear, member.rearMounted, share),
        ];
        const [f, r] = [this.#carried(member.front), this.#carried(member.rear)];
        const axis = normalise(subtract(front, rear));
        return [
          ...stays((q) => mix(f(q), r(q), 0.5), mix(front, rear, 0.5)),
          ...vanishes((q) => cross(subtract(f(q), r(q)), axis)),
        ];
      }
      case "strut": {
        const [top, bottom] = [this.#carried(member.top), this.#carried(member.bottom)];
        const mount = mix(member.top, member.topMounted, share);
        const length_mm = distance(member.top, member.bottom);
        return vanishes((q) => scale(cross(subtract(mount, bottom(q)), subtract(top(q), bottom(q))), 1 / length_mm));
      }
    }
  }
}

type Triple = [number, number, number];

const corner =
  (i: number): Place =>
  (q) => [q[3 * i]!, q[3 * i + 1]!, q[3 * i + 2]!];
const still =
  (p: Vec3): Place =>
  () =>
    p;

/** Two places keep their distance; near to it, the misfit in mm. */
function apart(one: Place, other: Place, length_mm: number): Row {
  return (q) => {
    const by = subtract(one(q), other(q));
    return (dot(by, by) - length_mm * length_mm) / (2 * length_mm);
  };
}

function between(one: readonly number[], other: readonly number[]): number {
  return Math.hypot(...one.map((value, i) => value - other[i]!));
}

function stays(place: Place, where: Vec3): Row[] {
  return [0, 1, 2].map((k) => (q) => place(q)[k]! - where[k]!);
}

function vanishes(vector: Place): Row[] {
  return [0, 1, 2].map((k) => (q) => vector(q)[k]!);
}

function slopes(row: Row, q: readonly number[]): number[] {
  return q.map((value, i) => {
    const moved = [...q];
    moved[i] = value + 1;
    const above = row(moved);
    moved[i] = value - 1;
    return (above - row(moved)) / 2;
  });
}
