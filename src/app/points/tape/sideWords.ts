import type { Vec3 } from "../../../maths/vec3.ts";
import type { Side } from "../../../scene/scene.ts";
import { t } from "../../text/text.ts";

/** On which side of the studs a place lies that is off their plane in this direction: "above the studs". */
export function sideOfStuds(direction: Vec3, side: Side): string {
  const sizes = direction.map(Math.abs);
  const most = sizes.indexOf(Math.max(...sizes));
  const isOut = direction[1] > 0 === (side === "left");
  if (most === 2) return t(`points.tape.lies.${direction[2] > 0 ? "above" : "below"}`);
  if (most === 1) return t(`points.tape.lies.${isOut ? "outboard" : "inboard"}`);
  return t(`points.tape.lies.${direction[0] > 0 ? "ahead" : "behind"}`);
}
