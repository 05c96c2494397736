import { mirror, type Vec3 } from "../maths/vec3.ts";
import { type DatumReading, toDatum } from "./datum.ts";
import type { SceneDocument } from "./document.ts";
import { listPoints, withBoltedUp } from "./points.ts";
import type { Datum, Side } from "./scene.ts";

/** A point as it was measured on one side of the car, car coordinates, mm. */
export type MeasuredPoint = NonNullable<NonNullable<SceneDocument["measured"]>["left"]>[string];

export function measuredPoint(document: SceneDocument, side: Side, name: string): MeasuredPoint | null {
  const points = document.measured?.[side] ?? {};
  return Object.hasOwn(points, name) ? points[name]! : null;
}

/** The document with what was measured on a side; null takes it out. The drawing stays as it is. */
export function withMeasured(
  document: SceneDocument,
  side: Side,
  name: string,
  point: MeasuredPoint | null,
): SceneDocument {
  const { [name]: _, ...others } = document.measured?.[side] ?? {};
  const points = point === null ? others : { ...others, [name]: point };
  const { measured: before = {}, ...rest } = document;
  const { [side]: __, ...otherSide } = before;
  const measured = Object.keys(points).length === 0 ? otherSide : { ...otherSide, [side]: points };
  return Object.keys(measured).length === 0 ? rest : { ...rest, measured };
}

/** Left and right of one point: where the mount is on the left, where it was measured on the right, both car coordinates. */
export interface SidePair {
  readonly name: string;
  readonly left: Vec3;
  readonly right: Vec3;
  /** Right less left, read forward, out and up from the datum and from its image: mirror images give nothing. */
  readonly difference: DatumReading;
}

/** The points that were measured on the right, in the order of the file. */
export function comparedSides(document: SceneDocument, datum: Datum | null): SidePair[] {
  return listPoints(document).flatMap(({ name, at, boltedUpAt }): SidePair[] => {
    const right = measuredPoint(document, "right", name)?.at;
    if (right === undefined) return [];
    const left = boltedUpAt ?? at;
    const [here, there] = [toDatum(datum, left, "left"), toDatum(datum, right, "right")];
    const difference = {
      forward_mm: there.forward_mm - here.forward_mm,
      out_mm: there.out_mm - here.out_mm,
      up_mm: there.up_mm - here.up_mm,
    };
    return [{ name, left, right, difference }];
  });
}

/**
 * The document whose left corner is the image of the right one as measured: every mount on the chassis that was measured
 * there stands in the image of that place, and each part keeps its drawn length, as the parts of both sides are made alike.
 * Points on the wheel side follow from that; what was measured of them does not count.
 */
export function rightAsMeasured(document: SceneDocument): SceneDocument {
  return listPoints(document).reduce((changed, { name, isMount }) => {
    const right = isMount ? measuredPoint(document, "right", name) : null;
    return right === null ? changed : withBoltedUp(changed, name, mirror(right.at));
  }, document);
}
