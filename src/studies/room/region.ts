import { add, length, normalise, scale, type Vec3 } from "../../maths/vec3.ts";
import { InputError } from "../../scene/error.ts";

/** Car coordinates of the left side: a direction, and how far along it from where the point is now. */
export interface Span {
  readonly along: Vec3;
  readonly from_mm: number;
  readonly to_mm: number;
}

/** Where places are asked: along one direction (a line), two (a plane) or three (a box), whole steps from where the point is. */
export interface Region {
  readonly spans: readonly Span[];
  readonly step_mm: number;
}

/** More places than anybody waits for or looks at. */
const MOST_PLACES = 2_000_000;

/**
 * The places of a region, numbered along the first span first. They are whole steps from where the point is now, so a larger
 * region has all places of a smaller one.
 */
export class PlaceGrid {
  readonly region: Region;
  /** Steps from where the point is to the first place, and number of places, by span; 0 and 1 for spans that are not there. */
  readonly first: readonly [number, number, number];
  readonly counts: readonly [number, number, number];
  readonly count: number;
  private readonly directions: readonly Vec3[];

  /** Throws InputError for a region without places, with too many, or of directions without length or in one plane. */
  constructor(region: Region) {
    const { spans, step_mm } = region;
    const refuse = (wrong: string, wanted: string) => new InputError("wrong-value", { path: "region" }, wrong, wanted);
    if (spans.length < 1 || spans.length > 3) throw refuse(`has ${spans.length} directions`, "1 to 3");
    if (!(step_mm >= 0.01)) throw refuse(`the step is ${step_mm} mm`, "0.01 mm or more");
    this.directions = spans.map(({ along }) => {
      if (!(length(along) > 1e-9)) throw refuse("a direction has no length", "a direction such as [0, 1, 0]");
      return normalise(along);
    });
    if (volumeOf(this.directions) < 1e-3) throw refuse("its directions lie in one line or plane", "directions apart");
    const first = spans.map(({ from_mm }) => Math.ceil(from_mm / step_mm - 1e-9) + 0);
    const counts = spans.map(({ to_mm }, i) => Math.floor(to_mm / step_mm + 1e-9) - first[i]! + 1);
    const empty = counts.findIndex((count) => !(count >= 1));
    if (empty >= 0) {
      const { from_mm, to_mm } = spans[empty]!;
      throw refuse(`no step of ${step_mm} mm lies from ${from_mm} to ${to_mm}`, "a longer way or a smaller step");
    }
    this.region = region;
    this.first = [first[0]!, first[1] ?? 0, first[2] ?? 0];
    this.counts = [counts[0]!, counts[1] ?? 1, counts[2] ?? 1];
    this.count = this.counts[0] * this.counts[1] * this.counts[2];
    if (this.count > MOST_PLACES) throw refuse(`it has ${this.count} places`, `${MOST_PLACES} or fewer: larger steps`);
  }

  /** How many steps a place is from where the point is, by span. */
  stepsOf(place: number): [number, number, number] {
    const { first, counts } = this;
    const row = Math.floor(place / counts[0]);
    return [first[0] + place - row * counts[0], first[1] + (row % counts[1]), first[2] + Math.floor(row / counts[1])];
  }

  numberOf(steps: readonly [number, number, number]): number {
    const { first, counts } = this;
    return steps[0] - first[0] + counts[0] * (steps[1] - first[1] + counts[1] * (steps[2] - first[2]));
  }

  /** How far the place is from where the point is now, car coordinates of the left side, mm. */
  offsetOf(place: number): Vec3 {
    return this.offsetBy(this.stepsOf(place));
  }

  /** The corners of the region, which have all its places between them. */
  corners(): Vec3[] {
    const ends = this.first.map((first, k) => [first, first + this.counts[k]! - 1]);
    return ends[0]!.flatMap((x) => ends[1]!.flatMap((y) => ends[2]!.map((z) => this.offsetBy([x, y, z]))));
  }

  private offsetBy(steps: readonly [number, number, number]): Vec3 {
    return this.directions.reduce<Vec3>(
      (sum, along, k) => add(sum, scale(along, steps[k]! * this.region.step_mm)),
      [0, 0, 0],
    );
  }
}

/** Length, area or volume of what unit directions span. */
function volumeOf([a, b, c]: readonly Vec3[]): number {
  if (!a || !b) return 1;
  const [x, y, z] = [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
  return c ? Math.abs(x * c[0] + y * c[1] + z * c[2]) : Math.hypot(x, y, z);
}
