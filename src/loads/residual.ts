import { add, cross, length, scale, subtract, type Vec3, ZERO } from "../maths/vec3.ts";
import type { Scene } from "../scene/scene.ts";
import type { JointLoad, PointForce } from "./forces.ts";

interface Body {
  /** Moments are taken about its first joint: elsewhere they would gather rounding. */
  readonly about: Vec3;
  force: Vec3;
  moment: Vec3;
}

/** Parts that are one body for this purpose: the halves of the damper, and hub, ball, hinge and strut parts. */
export function bodyNames(scene: Scene): (name: string) => string {
  const carrier = new Set(
    scene.members.filter(({ kind }) => kind !== "link" && kind !== "wishbone").map(({ id }) => id),
  );
  return (name) => {
    if (carrier.has(name)) return "carrier";
    return name === "damper-upper" || name === "damper-lower" ? "damper" : name;
  };
}

/**
 * What is left over when everything that acts on each body is added up anew from the joints' loads: 0 but for rounding.
 * `ground` acts on the carrier (hub and wheel with it); `held_Nmm` is a couple on it that no joint passes: the wheel's own
 * inertia where it spins free. Chassis and powertrain are not bodies here: they take what comes.
 */
export function leftOver(
  joints: readonly JointLoad[],
  bodyOf: (name: string) => string,
  ground: PointForce,
  held_Nmm: Vec3,
): { residual_N: number; residual_Nmm: number } {
  const bodies = new Map<string, Body>();
  for (const { between, at, force_N, moment_Nmm } of joints) {
    act(between[1], at, force_N, moment_Nmm);
    act(between[0], at, scale(force_N, -1), scale(moment_Nmm, -1));
  }
  act("carrier", ground.at, ground.force_N, held_Nmm);
  let residual_N = 0;
  let residual_Nmm = 0;
  for (const { force, moment } of bodies.values()) {
    residual_N = Math.max(residual_N, length(force));
    residual_Nmm = Math.max(residual_Nmm, length(moment));
  }
  return { residual_N, residual_Nmm };

  function act(part: string, at: Vec3, force_N: Vec3, moment_Nmm: Vec3): void {
    const name = bodyOf(part);
    if (name === "chassis" || name === "powertrain") return;
    let body = bodies.get(name);
    if (!body) {
      body = { about: at, force: ZERO, moment: ZERO };
      bodies.set(name, body);
    }
    body.force = add(body.force, force_N);
    body.moment = add(body.moment, add(moment_Nmm, cross(subtract(at, body.about), force_N)));
  }
}
