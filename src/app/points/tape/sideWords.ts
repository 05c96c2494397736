import type { Vec3 } from "../../../maths/vec3.ts";
import type { Side } from "../../../scene/scene.ts";

/** On which side of the studs a place lies that is off their plane in this direction: "above the studs". */
export function sideOfStuds(direction: Vec3, side: Side): string {
  const sizes = direction.map(Math.abs);
  const most = sizes.indexOf(Math.max(...sizes));
  const isOut = direction[1] > 0 === (side === "left");
  if (most === 2) return direction[2] > 0 ? "above the studs" : "below the studs";
  if (most === 1) return isOut ? "outboard of the studs" : "inboard of the studs";
  return direction[0] > 0 ? "ahead of the studs" : "behind the studs";
}
