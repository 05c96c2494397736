import { buildSolid } from "../geometry/buildSolid.ts";
import { contentKey } from "../geometry/content.ts";
import { mirrorSolid } from "../geometry/rearrange.ts";
import { buildRim } from "../geometry/rimSolid.ts";
import type { Solid } from "../geometry/solid.ts";
import { buildTyre } from "../geometry/tyreSolid.ts";
import type { Scene, Side } from "../scene/scene.ts";
import type { ModelBody, PartGroup } from "./model.ts";
import { type BodyPlan, planOwnBodies } from "./ownBodies.ts";

/** Solids by what they depend on: keep one shelf from check to check and only changed parts are made anew. */
export type SolidShelf = Map<string, Solid>;

/**
 * Every body of the scene as a closed mesh in its design position: the corner and mirrored brackets once a side (the right
 * ones mirrored), what else stands on chassis and powertrain once. Throws InputError for a shape that cannot be made.
 */
export function assembleModel(
  scene: Scene,
  meshFiles: ReadonlyMap<string, Solid> = new Map(),
  shelf: SolidShelf = new Map(),
): ModelBody[] {
  const make = (shape: BodyPlan["shape"], path: string): { solid: Solid; content: string } => {
    const context = { tessellation_mm: scene.tessellation_mm, wheel: scene.wheel, meshFiles, path };
    const content = contentKey(shape, context);
    return onShelf(shelf, content, () => {
      if (shape.kind === "tyre") return buildTyre(scene.wheel, scene.tessellation_mm);
      if (shape.kind === "rim") return buildRim(scene.wheel, scene.tessellation_mm);
      return buildSolid(shape, context);
    });
  };
  const mirrored = (left: { solid: Solid; content: string }) =>
    onShelf(shelf, `mirror:${left.content}`, () => mirrorSolid(left.solid));

  const bodies: ModelBody[] = [];
  for (const [i, body] of scene.bodies.entries()) {
    if (body.on !== "chassis" && body.on !== "powertrain") continue;
    const left = make(body.shape, `bodies[${i}].shape`);
    const standing: Omit<ModelBody, "key" | "side" | "solid" | "content"> = {
      id: body.id,
      mount: body.on,
      group: body.on,
      role: body.role,
      look: null,
    };
    if (!body.mirror) bodies.push({ ...standing, key: body.id, side: "both", ...left });
    else {
      for (const side of scene.sides) {
        bodies.push({ ...standing, key: `${body.id}@${side}`, side, ...(side === "left" ? left : mirrored(left)) });
      }
    }
  }
  for (const side of scene.sides) {
    for (const plan of planCorner(scene, side)) {
      const left = make(plan.shape, plan.path);
      const { solid, content } = side === "left" ? left : mirrored(left);
      bodies.push({
        key: `${plan.id}${plan.part && `#${plan.part}`}@${side}`,
        id: plan.id,
        side,
        mount: plan.mount,
        group: groupOf(scene, plan.mount),
        role: plan.role,
        look: plan.look,
        solid,
        content,
      });
    }
  }
  return bodies;
}

function planCorner(scene: Scene, side: Side): BodyPlan[] {
  const plans = planOwnBodies(scene, side);
  for (const [i, { id, on, shape, role }] of scene.bodies.entries()) {
    if (on === "chassis" || on === "powertrain") continue;
    plans.push({ id, part: "", mount: on, role, look: null, shape, path: `bodies[${i}].shape` });
  }
  return plans;
}

function groupOf(scene: Scene, mount: string): PartGroup {
  if (mount === "carrier") return "hub";
  const kind = scene.members.find((member) => member.id === mount)?.kind;
  return kind === "ball" || kind === "hinge" || kind === "strut" ? "hub" : "arms";
}

function onShelf(shelf: SolidShelf, content: string, make: () => Solid): { solid: Solid; content: string } {
  let solid = shelf.get(content);
  if (!solid) {
    solid = make();
    shelf.set(content, solid);
  }
  return { solid, content };
}
