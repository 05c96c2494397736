import { type Grip, gripsOf } from "../geometry/grips.ts";
import type { Scene, Side } from "../scene/scene.ts";
import { planOwnBodies } from "./ownBodies.ts";

const known = new WeakMap<Scene, Map<string, readonly Grip[]>>();

/**
 * Grips of a body's shape as drawn, for the left side (geometry/grips.ts); none where the scene has no such body. `piece`
 * tells the halves of a spring apart. `side` matters for the driveshaft, whose two need not be alike.
 */
export function gripsOfBody(scene: Scene, id: string, piece = "", side: Side = "left"): readonly Grip[] {
  let bodies = known.get(scene);
  if (!bodies) {
    bodies = new Map();
    known.set(scene, bodies);
  }
  const name = `${id}#${piece}@${side}`;
  let grips = bodies.get(name);
  if (!grips) {
    const shape =
      scene.bodies.find((body) => body.id === id)?.shape ??
      planOwnBodies(scene, side).find((plan) => plan.id === id && plan.part === piece)?.shape;
    grips = shape ? gripsOf(shape, scene.wheel) : [];
    bodies.set(name, grips);
  }
  return grips;
}
