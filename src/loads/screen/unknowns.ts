import type { Scene } from "../../scene/scene.ts";
import type { LoadedState } from "../runLoads.ts";
import { CLASSES } from "./bolt.ts";
import type { Missing, UnknownRow } from "./finding.ts";
import { materialOf } from "./materials.ts";

/** Every loaded part that cannot be screened, with what would have to be told; what is not known is never passed. */
export function unknownsOf(scene: Scene, states: readonly LoadedState[]): UnknownRow[] {
  const { tubes, bolts, plates, welds, ratings, materials } = scene.loads;
  const rows = new Map<string, Missing[]>();
  const miss = (part: string, what: Missing) => rows.set(part, [...(rows.get(part) ?? []), what]);

  for (const member of scene.members) {
    const own = tubes.filter((tube) => tube.member === member.id);
    if (own.length === 0) miss(member.id, { what: "tube", kind: member.kind });
    const legs = member.kind === "wishbone" ? (["front", "rear"] as const) : [];
    if (own.length > 0 && own.every(({ section }) => section)) {
      for (const leg of legs) if (own.every(({ section }) => section !== leg)) miss(member.id, { what: "leg", leg });
    }
    for (const { material } of own) missMaterial(member.id, material);
  }
  for (const joint of loadedJoints(states)) {
    const bolt = bolts.find((one) => one.joint === joint);
    const plate = plates.find((one) => one.joint === joint);
    const weld = welds.find((one) => one.joint === joint);
    if (!bolt) miss(joint, { what: "bolt" });
    else if (CLASSES[bolt.class].shear === null) miss(joint, { what: "bolt class", class: bolt.class });
    if (!plate) miss(joint, { what: "plate" });
    else missMaterial(joint, plate.material);
    if (!weld) miss(joint, { what: "weld" });
    else if (!missMaterial(joint, weld.material) && materialOf(weld.material, materials)?.weldFactor === null)
      miss(joint, { what: "weld factor", material: weld.material });
    if (!ratings.some((one) => one.joint === joint)) miss(joint, { what: "rating" });
  }
  return [...rows].map(([part, missing]) => ({ part, missing }));

  function missMaterial(part: string, id: string): boolean {
    if (materialOf(id, materials)) return false;
    miss(part, { what: "material", material: id });
    return true;
  }
}

/** The joints by name, first those met first; the drop link's only where a case winds the bar up. */
function loadedJoints(states: readonly LoadedState[]): string[] {
  const joints = new Set<string>();
  for (const { loads } of states) for (const { id } of loads.joints) joints.add(id);
  return [...joints].filter((id) => !id.startsWith("driveshaft."));
}
