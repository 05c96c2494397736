import { type Extent, extentOf } from "../clearance/bound.ts";
import type { Solid } from "../geometry/solid.ts";

/** Boxes go with their solids. */
const extents = new WeakMap<Solid, Extent>();

/** The axis-parallel box of a solid as it is drawn. */
export function extentOfSolid(solid: Solid): Extent {
  let extent = extents.get(solid);
  if (!extent) {
    extent = extentOf(solid.positions);
    extents.set(solid, extent);
  }
  return extent;
}
