import { cross, dot, length, normalise, scale, subtract, type Vec3 } from "../../maths/vec3.ts";
import type { LinkMember, Shape } from "../../scene/scene.ts";

/**
 * How far the tubes that a link is drawn of stray from the straight line between its joints, mm: the corners of their
 * centre lines, which a bend rounds off inwards. Tubes placed or turned as a whole are not counted, nor is what is drawn otherwise.
 */
export function drawnBow_mm(link: LinkMember): number {
  const along = normalise(subtract(link.outboard, link.inboard));
  return pathsOf(link.body)
    .flat()
    .reduce((most, point) => {
      const arm = subtract(point, link.inboard);
      return Math.max(most, length(cross(subtract(arm, scale(along, dot(arm, along))), along)));
    }, 0);
}

function pathsOf(shape: Shape | null | undefined): (readonly Vec3[])[] {
  if (!shape || shape.at || shape.turn_deg) return [];
  if (shape.kind === "tube") return [shape.path];
  return shape.kind === "group" ? shape.parts.flatMap(pathsOf) : [];
}
