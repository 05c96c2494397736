import { buildSolid } from "../geometry/buildSolid.ts";
import { contentKey } from "../geometry/content.ts";
import { mirrorSolid } from "../geometry/rearrange.ts";
import { buildRim } from "../geometry/rimSolid.ts";
import type { Solid } from "../geometry/solid.ts";
import { buildTyre } from "../geometry/tyreSolid.ts";
import type { Poll } from "../maths/poll.ts";
import { InputError } from "../scene/error.ts";
import type { Scene, Side } from "../scene/scene.ts";
import type { ModelBody, PartGroup } from "./model.ts";
import { type BodyPlan, planOwnBodies } from "./ownBodies.ts";
import { giveOf } from "./pairRules.ts";
import { Kept, recall } from "./shelf.ts";
import { uncheckedParts } from "./unchecked.ts";
import { withinOf } from "./within.ts";

/** More would fill the memory that a browser gives a page before the first of them is checked. */
const MOST_TRIANGLES = 12_000_000;

/**
 * Every body of the scene as a closed mesh in its design position: the corner and mirrored brackets once a side (the right
 * ones mirrored), what else stands on chassis and powertrain once; without the parts that are left out (unchecked.ts). Throws
 * InputError for a shape that cannot be made.
 */
export function assembleModel(
  scene: Scene,
  meshFiles: ReadonlyMap<string, Solid> = new Map(),
  solids: Kept<Solid> = new Kept(),
  poll?: Poll,
): ModelBody[] {
  let triangles = 0;
  const make = (shape: BodyPlan["shape"], path: string): Made => {
    poll?.();
    const context = { tessellation_mm: scene.tessellation_mm, wheel: scene.wheel, meshFiles, path };
    const content = contentKey(shape, context);
    const solid = solids.recall(content, () => {
      if (shape.kind === "tyre") return buildTyre(scene.wheel, scene.tessellation_mm);
      if (shape.kind === "rim") return buildRim(scene.wheel, scene.tessellation_mm);
      return buildSolid(shape, context);
    });
    triangles += solid.indices.length / 3;
    if (triangles > MOST_TRIANGLES) {
      const wrong = `with this part all parts together have ${triangles} triangles`;
      throw new InputError("too-large", { path }, wrong, `at most ${MOST_TRIANGLES}: thin scans out`);
    }
    const within_mm = withinOf(shape);
    return within_mm > 0 ? { solid, content, within_mm } : { solid, content };
  };
  const mirrored = (left: Made): Made => {
    poll?.();
    const content = `mirror:${left.content}`;
    return { ...left, solid: solids.recall(content, () => mirrorSolid(left.solid)), content };
  };

  const unchecked = new Set(uncheckedParts(scene, meshFiles).map(({ id }) => id));
  const give = giveOf(scene);
  const giving = (mount: string): Pick<ModelBody, "give_mm"> => (give(mount) > 0 ? { give_mm: give(mount) } : {});
  const bodies: ModelBody[] = [];
  for (const [i, body] of scene.bodies.entries()) {
    if ((body.on !== "chassis" && body.on !== "powertrain") || unchecked.has(body.id)) continue;
    const left = make(body.shape, `bodies[${i}].shape`);
    const standing: Omit<ModelBody, "key" | "side" | keyof Made> = {
      id: body.id,
      mount: body.on,
      group: body.on,
      role: body.role,
      look: null,
      ...giving(body.on),
    };
    if (!body.mirror) bodies.push({ ...standing, key: body.id, side: "both", ...left });
    else {
      for (const side of scene.sides) {
        bodies.push({ ...standing, key: `${body.id}@${side}`, side, ...(side === "left" ? left : mirrored(left)) });
      }
    }
  }
  const drawn = new Map<BodyPlan["shape"], Made>();
  for (const side of scene.sides) {
    for (const plan of planCorner(scene, side)) {
      if (unchecked.has(plan.id)) continue;
      const left = recall(drawn, plan.shape, () => make(plan.shape, plan.path));
      bodies.push({
        key: `${plan.id}${plan.part && `#${plan.part}`}@${side}`,
        id: plan.id,
        side,
        mount: plan.mount,
        group: groupOf(scene, plan.mount),
        role: plan.role,
        look: plan.look,
        ...giving(plan.mount),
        ...(side === "left" ? left : mirrored(left)),
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

type Made = Pick<ModelBody, "solid" | "content" | "within_mm">;
