import { bendSag_mm, bendSteps, bendTakes_mm, turnAt_rad } from "../../geometry/shapes/tube.ts";
import { add, distance, normalise, scale, subtract } from "../../maths/vec3.ts";
import type { Shape, TubeShape } from "../../scene/scene.ts";

/** Beside what a bend takes up of its legs it gets so much of either, mm. */
const BESIDE_mm = 1;

/** Whether a shape is a tube with bends that stands as it is drawn. */
export function isBentTube(shape: Shape): shape is TubeShape {
  return shape.kind === "tube" && shape.path.length > 2 && !shape.at && !shape.turn_deg;
}

/**
 * A bent tube in straights and bends, in the order of its path and beginning with a straight: so that a tube of which one end
 * moves is drawn anew only at the bend beside it. Straights are drawn as far out as the tube with its bends is. Null where a
 * straight is left shorter than `least_mm`.
 */
export function tubeParts(tube: TubeShape, tessellation_mm: number, least_mm = 0): TubeShape[] | null {
  const { path, bend_mm, diameter_mm } = tube;
  const straight_mm = bend_mm === null ? diameter_mm : diameter_mm + 2 * bendSag_mm(tessellation_mm);
  const cuts = path.map((_, i) =>
    i === 0 || i === path.length - 1 ? 0 : bendTakes_mm(tube, turnAt_rad(path, i)) + BESIDE_mm,
  );
  const parts: TubeShape[] = [];
  for (let i = 1; i < path.length; i++) {
    const [from, to] = [path[i - 1]!, path[i]!];
    const left_mm = distance(from, to) - cuts[i - 1]! - cuts[i]!;
    if (!(left_mm >= least_mm)) return null;
    const along = normalise(subtract(to, from));
    const [begin, end] = [add(from, scale(along, cuts[i - 1]!)), subtract(to, scale(along, cuts[i]!))];
    parts.push({ ...tube, path: [begin, end], diameter_mm: straight_mm });
    if (i === path.length - 1) break;
    const onward = normalise(subtract(path[i + 1]!, to));
    parts.push({ ...tube, path: [end, to, add(to, scale(onward, cuts[i]!))] });
  }
  return parts;
}

/** The most steps that a bend of any of these shapes is drawn in; undefined where one is no tube with bends. */
export function mostBendSteps(shapes: readonly Shape[], tessellation_mm: number): number | undefined {
  let most = 1;
  for (const shape of shapes) {
    if (!isBentTube(shape)) return undefined;
    for (let i = 1; i < shape.path.length - 1; i++) {
      most = Math.max(most, bendSteps(shape, turnAt_rad(shape.path, i), { tessellation_mm }));
    }
  }
  return most;
}
