import { add, cross, dot, length, normalise, scale, subtract, type Vec3 } from "../../maths/vec3.ts";

/** The end of a straight run of tube: `at` on its centre line, `out` the unit vector on which it ends. */
export interface TubeEnd {
  readonly at: Vec3;
  readonly out: Vec3;
  /** Of the outside. */
  readonly radius_mm: number;
  /** Of the bore; the radius itself where the wall is not known: then the outside alone is fitted. */
  readonly bore_mm: number;
  /** Unit vector square to `out`: where 0° of the wrap lies. */
  readonly zero: Vec3;
}

/** What a tube is fitted to, without its ends. */
export type Meets =
  | { readonly kind: "round"; readonly at: Vec3; readonly axis: Vec3; readonly radius_mm: number }
  | { readonly kind: "flat"; readonly at: Vec3; readonly normal: Vec3 };

/** How far along `out`, from the end's `at`, the wall reaches what it meets. */
export interface Reach {
  readonly along_mm: number;
  /** The tube is wider there than what it meets and passes by its side. */
  readonly passes: boolean;
}

/** Below this angle a tube runs along what it meets, and no mitre can be cut. */
const LEAST_ANGLE_deg = 10;

/** Degrees between the tube and what it meets, 90 square to it. */
export function meetingAngle({ out }: TubeEnd, meets: Meets): number {
  const along = Math.abs(dot(out, meets.kind === "round" ? meets.axis : meets.normal));
  const rad = Math.min(1, along);
  return (meets.kind === "round" ? Math.acos(rad) : Math.asin(rad)) * (180 / Math.PI);
}

export function canMeet(end: TubeEnd, meets: Meets): boolean {
  return meetingAngle(end, meets) >= LEAST_ANGLE_deg;
}

/** Unit vector from the centre line to the wall, `turn_rad` about `out` from the zero line. */
export function wallWay({ zero, out }: TubeEnd, turn_rad: number): Vec3 {
  return add(scale(zero, Math.cos(turn_rad)), scale(cross(out, zero), Math.sin(turn_rad)));
}

/**
 * Where the wall first reaches what it meets, at one place around the tube: of all the wall from bore to outside the part that
 * comes first, so that a cut straight through the wall leaves no steel within the other.
 *
 * Two cylinders, axes at the angle θ and e apart: a line of the wall at ρ from the tube's axis stands ρα towards the other axis and e + ρβ
 * beside it, and enters where (p + ρα + s·sin θ)² + (e + ρβ)² = R², so s = −(√(R² − (e + ρβ)²) + p + ρα) / sin θ
 * (elementary; with e = 0 and ρ = r the usual coping formula, (√(R² − r²·sin²φ) + r·cos φ·cos θ) / sin θ). s is convex in ρ.
 */
export function reachOf(end: TubeEnd, meets: Meets, turn_rad: number): Reach {
  const way = wallWay(end, turn_rad);
  if (meets.kind === "flat") {
    const facing = dot(end.out, meets.normal);
    const away = dot(subtract(meets.at, end.at), meets.normal);
    const at = (rho: number) => (away - rho * dot(way, meets.normal)) / facing;
    return { along_mm: Math.min(at(end.bore_mm), at(end.radius_mm)), passes: false };
  }
  const flat = subtract(end.out, scale(meets.axis, dot(end.out, meets.axis)));
  const sine = length(flat);
  const ahead = normalise(flat);
  const beside = cross(meets.axis, ahead);
  const from = subtract(end.at, meets.at);
  const [p, e] = [dot(from, ahead), dot(from, beside)];
  const [alpha, beta] = [dot(way, ahead), dot(way, beside)];
  const R = meets.radius_mm;
  const at = (rho: number): number => {
    const side = Math.min(R, Math.abs(e + rho * beta));
    return -(Math.sqrt(R * R - side * side) + p + rho * alpha) / sine;
  };
  const places = [end.bore_mm, end.radius_mm];
  if (Math.abs(beta) > 1e-12) {
    // ds/dρ = 0 where the wall's own line leaves the other's surface sideways
    const side = (Math.sign(beta) * R * alpha) / Math.hypot(alpha, beta);
    const rho = (side - e) / beta;
    if (rho > end.bore_mm && rho < end.radius_mm) places.push(rho);
  }
  return { along_mm: Math.min(...places.map(at)), passes: Math.abs(e + end.radius_mm * beta) > R + 1e-9 };
}
