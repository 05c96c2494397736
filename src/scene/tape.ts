import {
  addOuter,
  invertSym3,
  type Principal,
  principalAxes,
  quadratic,
  type Sym3,
  scaleSym3,
  sumOfOuter,
} from "../maths/sym3.ts";
import { add, distance, dot, scale, subtract, type Vec3 } from "../maths/vec3.ts";
import { InputError } from "./error.ts";
import { directionsFrom, fitPoint, leftOver } from "./tapeFit.ts";

/** One tape: from a stud whose place is known (car coordinates, mm) to the point that is sought. */
export interface Tape {
  readonly stud: Vec3;
  readonly length_mm: number;
}

export interface TapedPlace {
  /** Car coordinates, mm. */
  readonly at: Vec3;
  /** What each tape shows beyond the distance to `at`, mm: v. */
  readonly leftOver_mm: readonly number[];
  /** √(Σ v²), mm. Nothing for three tapes, which always agree. */
  readonly misfit_mm: number;
  /** Covariance of the place, mm²: the square root of aᵀ·C·a is the spread (one standard deviation) along the unit vector a. */
  readonly covariance_mm2: Sym3;
  /** Height above the studs' plane along `TapeFix.normal`, mm. */
  readonly height_mm: number;
  /** The tapes themselves rule it out against the first place (1 % level). */
  readonly isRuledOut: boolean;
}

export interface TapeFix {
  /** One place, or two: as good as each other where all studs lie in one plane, else the better one first. */
  readonly places: readonly TapedPlace[];
  /** Mean of the studs, and the unit normal of the plane that fits them best: up, or out, or forward in it first. */
  readonly middle: Vec3;
  readonly normal: Vec3;
}

/** Chance of 1 % to be passed by a normal variable (two-sided), and by χ² with one freedom: 2.576² (tables of the normal distribution). */
export const CRITICAL = 2.576;
const FEWEST = 3;
const FARTHEST_MM = 1_000_000;

/**
 * The point from its distances to three or more studs: least squares of the tape lengths (Gauss–Newton with damping), from
 * either side of the studs' plane. `accuracy_mm` is the standard deviation of one tape; the covariance is
 * accuracy²·(JᵀJ)⁻¹, the rows of J being the unit vectors from the studs (Mikhail and Ackermann, Observations and Least
 * Squares, 1976: from memory). `near` says which of two equal places stands first.
 *
 * Throws InputError `tapes` naming the tape: too few, no length, studs in one place or on one line, tapes that do not meet.
 */
export function placeFromTapes(tapes: readonly Tape[], accuracy_mm: number, near?: Vec3): TapeFix {
  mustBeTapes(tapes, accuracy_mm);
  const middle = scale(
    tapes.reduce<Vec3>((sum, { stud }) => add(sum, stud), [0, 0, 0]),
    1 / tapes.length,
  );
  const spread = principalAxes(sumOfOuter(tapes.map(({ stud }) => subtract(stud, middle))));
  mustSpanPlane(tapes, spread);
  const normal = facing(spread.axes[2]);
  const found = bothSides(tapes, middle, spread, normal).map((at) => placeAt(at, tapes, accuracy_mm, middle, normal));
  const apart = (place: TapedPlace) => (near ? distance(place.at, near) : -place.height_mm);
  const alike = 1e-6 * accuracy_mm ** 2;
  found.sort((a, b) => {
    const better = a.misfit_mm ** 2 - b.misfit_mm ** 2;
    return Math.abs(better) > alike ? better : apart(a) - apart(b);
  });
  const [best, other] = found;
  mustMeet(best!, tapes, accuracy_mm);
  if (!other || distance(best!.at, other.at) < 1e-3) return { places: [best!], middle, normal };
  const isRuledOut = other.misfit_mm ** 2 - best!.misfit_mm ** 2 > (CRITICAL * accuracy_mm) ** 2;
  return { places: [best!, { ...other, isRuledOut }], middle, normal };
}

/** The spread of a place along a unit direction, mm (one standard deviation). */
export function spreadAlong({ covariance_mm2 }: TapedPlace, direction: Vec3): number {
  return Math.sqrt(Math.max(0, quadratic(covariance_mm2, direction)));
}

function mustBeTapes(tapes: readonly Tape[], accuracy_mm: number): void {
  if (!(accuracy_mm > 0 && accuracy_mm <= 1000)) {
    throw refusal("accuracy_mm", `a tape good to ${accuracy_mm} mm is none`, "an accuracy above 0, such as 1 mm");
  }
  for (const [i, { length_mm }] of tapes.entries()) {
    if (!(length_mm > 0 && length_mm <= FARTHEST_MM)) {
      throw refusal(`tapes[${i}].length_mm`, `tape ${i + 1} has no length`, "a length above 0");
    }
  }
  if (tapes.length < FEWEST) {
    const count = ["no tapes do", "one tape does", "two tapes do"][tapes.length];
    throw refusal("tapes", `${count} not fix a point`, "tapes from three studs or more");
  }
  for (const [i, { stud }] of tapes.entries()) {
    const first = tapes.findIndex((other) => distance(other.stud, stud) < 0.1);
    if (first < i) {
      throw refusal(
        `tapes[${i}].stud`,
        `studs ${first + 1} and ${i + 1} stand in the same place`,
        "a stud of its own for each tape",
      );
    }
  }
}

/** Studs that span less than this across their line, as a share of its length, leave the point anywhere on a circle. */
const NARROWEST = 0.005;

function mustSpanPlane(tapes: readonly Tape[], { values }: Principal): void {
  if (values[1] > NARROWEST ** 2 * values[0]) return;
  throw refusal(
    "tapes",
    `all ${tapes.length} studs stand on one line, so that the point may be anywhere on a circle round it`,
    "a stud well off that line",
  );
}

/** Three tapes that are too short, or of which one is too long, leave a gap that no point closes. More tapes can tell which. */
function mustMeet(place: TapedPlace, tapes: readonly Tape[], accuracy_mm: number): void {
  if (tapes.length > FEWEST || place.misfit_mm <= 3 * accuracy_mm) return;
  const most = Math.max(...place.leftOver_mm.map(Math.abs));
  const i = place.leftOver_mm.findIndex((mm) => Math.abs(mm) === most);
  const short = place.leftOver_mm[i]! < 0 ? "short" : "long";
  throw refusal(
    "tapes",
    `the three tapes do not meet: at the nearest point tape ${i + 1} is still ${most.toFixed(1)} mm too ${short}`,
    "a tape or a stud put right",
  );
}

function bothSides(tapes: readonly Tape[], middle: Vec3, { axes, values }: Principal, normal: Vec3): [Vec3, Vec3] {
  const flat = inPlane(tapes, middle, axes, values);
  const square =
    tapes.reduce((sum, { stud, length_mm }) => sum + length_mm ** 2 - distance(flat, stud) ** 2, 0) / tapes.length;
  const longest = Math.max(...tapes.map(({ length_mm }) => length_mm));
  // never from the plane itself, where nothing pulls a point off it
  const height = Math.sqrt(Math.max(square, (0.02 * longest) ** 2));
  return [fitPoint(tapes, add(flat, scale(normal, height))), fitPoint(tapes, add(flat, scale(normal, -height)))];
}

/** Where the point's foot in the studs' plane would be: differences of squared lengths are linear in it. */
function inPlane(tapes: readonly Tape[], middle: Vec3, axes: Principal["axes"], values: Vec3): Vec3 {
  const squares = tapes.map(({ stud, length_mm }) => length_mm ** 2 - distance(stud, middle) ** 2);
  const mean = squares.reduce((sum, value) => sum + value, 0) / squares.length;
  let foot = middle;
  for (const k of [0, 1] as const) {
    const pull = tapes.reduce((sum, { stud }, i) => {
      return sum + dot(subtract(stud, middle), axes[k]) * (mean - squares[i]!);
    }, 0);
    foot = add(foot, scale(axes[k], pull / (2 * values[k])));
  }
  return foot;
}

function placeAt(at: Vec3, tapes: readonly Tape[], accuracy_mm: number, middle: Vec3, normal: Vec3): TapedPlace {
  const leftOver_mm = leftOver(tapes, at);
  return {
    at,
    leftOver_mm,
    misfit_mm: Math.hypot(...leftOver_mm),
    covariance_mm2: covarianceAt(at, tapes, accuracy_mm, normal),
    height_mm: dot(subtract(at, middle), normal),
    isRuledOut: false,
  };
}

/**
 * accuracy²·(JᵀJ)⁻¹. Near the studs' plane a tape hardly changes with the height h, and only by h²/2d: there the spread is
 * the height at which the sum of squares has grown by accuracy² (own derivation).
 */
function covarianceAt(at: Vec3, tapes: readonly Tape[], accuracy_mm: number, normal: Vec3): Sym3 {
  const normalMatrix = sumOfOuter(directionsFrom(tapes, at));
  const inverse = invertSym3(normalMatrix);
  const flattest = tapes.reduce((sum, { length_mm }) => sum + 1 / (2 * length_mm) ** 2, 0);
  const height_mm = (accuracy_mm ** 2 / flattest) ** 0.25;
  if (inverse && accuracy_mm * Math.sqrt(quadratic(inverse, normal)) <= height_mm) {
    return scaleSym3(inverse, accuracy_mm ** 2);
  }
  const held = addOuter(normalMatrix, normal, (accuracy_mm / height_mm) ** 2);
  return scaleSym3(invertSym3(held) ?? inverse!, accuracy_mm ** 2);
}

/** Of the two normals the one that points up, or out, or forward, whichever it does most. */
function facing(normal: Vec3): Vec3 {
  const order = [2, 1, 0] as const;
  const most = order.reduce((best, k) => (Math.abs(normal[k]) > Math.abs(normal[best]) + 1e-9 ? k : best), order[0]);
  return normal[most]! < 0 ? scale(normal, -1) : normal;
}

function refusal(path: string, wrong: string, wanted: string): InputError {
  return new InputError("tapes", { path }, wrong, wanted);
}
