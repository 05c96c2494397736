import { turnPose } from "../maths/pose.ts";
import { ZERO } from "../maths/vec3.ts";
import type { Shape } from "../scene/scene.ts";
import type { ShapeContext } from "./context.ts";
import { refuseTooFine } from "./fineness.ts";
import { transformSolid } from "./rearrange.ts";
import { box } from "./shapes/box.ts";
import { capsule } from "./shapes/capsule.ts";
import { cone } from "./shapes/cone.ts";
import { cylinder } from "./shapes/cylinder.ts";
import { group } from "./shapes/group.ts";
import { hull } from "./shapes/hull.ts";
import { mesh } from "./shapes/mesh.ts";
import { prism } from "./shapes/prism.ts";
import { sphere } from "./shapes/sphere.ts";
import { torus } from "./shapes/torus.ts";
import { tube } from "./shapes/tube.ts";
import { wheel } from "./shapes/wheel.ts";
import type { Solid } from "./solid.ts";

/**
 * The shape's surface in design position: closed, outward-facing and manifold (scans may be open), at most
 * `tessellation_mm` outside the true surface and never inside it, but for the rounding of float32 coordinates
 * (0.0001 mm within 1.5 m of the origin). Placement is p → at + R·p, R intrinsic X, Y, Z.
 * Throws InputError where a shape cannot be (a bend that does not fit, a missing mesh).
 */
export function buildSolid(shape: Shape, context: ShapeContext): Solid {
  refuseTooFine(shape, context);
  const solid = drawn(shape, context);
  if (!shape.at && !shape.turn_deg) return solid;
  const pose = turnPose(shape.turn_deg ?? ZERO);
  const [x, y, z] = shape.at ?? ZERO;
  pose[3] = x;
  pose[7] = y;
  pose[11] = z;
  return transformSolid(solid, pose);
}

function drawn(shape: Shape, context: ShapeContext): Solid {
  switch (shape.kind) {
    case "sphere":
      return sphere(shape, context);
    case "cylinder":
      return cylinder(shape, context);
    case "capsule":
      return capsule(shape, context);
    case "cone":
      return cone(shape, context);
    case "box":
      return box(shape, context);
    case "torus":
      return torus(shape, context);
    case "tube":
      return tube(shape, context);
    case "prism":
      return prism(shape, context);
    case "hull":
      return hull(shape, context);
    case "wheel":
      return wheel(shape, context);
    case "mesh":
      return mesh(shape, context);
    case "group":
      return group(shape, context);
  }
}
