import type { Wheel } from "../scene/scene.ts";
import { type Frame, frameAlong } from "./frame.ts";

/** The left wheel's own axes at ride height: origin at its centre, z the spin axis, outboard: (sin t·cos c, cos t·cos c, −sin c). */
export function wheelFrame(wheel: Wheel): Frame {
  const toe_rad = (wheel.toe_deg * Math.PI) / 180;
  const camber_rad = (wheel.camber_deg * Math.PI) / 180;
  const level = Math.cos(camber_rad);
  return frameAlong(wheel.centre, [Math.sin(toe_rad) * level, Math.cos(toe_rad) * level, -Math.sin(camber_rad)]);
}
