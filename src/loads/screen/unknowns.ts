import type { Scene } from "../../scene/scene.ts";
import type { LoadedState } from "../runLoads.ts";
import { CLASSES } from "./bolt.ts";
import type { UnknownRow } from "./finding.ts";
import { materialOf } from "./materials.ts";

/** Every loaded part that cannot be screened, with what would have to be told; what is not known is never passed. */
export function unknownsOf(scene: Scene, states: readonly LoadedState[]): UnknownRow[] {
  const { tubes, bolts, plates, welds, ratings, materials } = scene.loads;
  const rows = new Map<string, string[]>();
  const miss = (part: string, what: string) => rows.set(part, [...(rows.get(part) ?? []), what]);

  for (const member of scene.members) {
    const own = tubes.filter((tube) => tube.member === member.id);
    if (own.length === 0) miss(member.id, SIZES[member.kind]);
    const legs = member.kind === "wishbone" ? ["front", "rear"] : [];
    if (own.length > 0 && own.every(({ section }) => section)) {
      for (const leg of legs) if (own.every(({ section }) => section !== leg)) miss(member.id, `the ${leg} leg's tube`);
    }
    for (const { material } of own) missMaterial(member.id, material);
  }
  for (const joint of loadedJoints(states)) {
    const bolt = bolts.find((one) => one.joint === joint);
    const plate = plates.find((one) => one.joint === joint);
    const weld = welds.find((one) => one.joint === joint);
    if (!bolt) miss(joint, "the bolt: thread, class, shear planes");
    else if (CLASSES[bolt.class].shear === null)
      miss(joint, `the shear strength of a bolt of class ${bolt.class}: EN 1993-1-8 does not go so far, ask the maker`);
    if (!plate) miss(joint, "the plate: thickness, hole, edge distances, material");
    else missMaterial(joint, plate.material);
    if (!weld) miss(joint, "the weld: throat or leg, length, runs, material");
    else if (!missMaterial(joint, weld.material) && materialOf(weld.material, materials)?.weldFactor === null)
      miss(joint, `the weld factor of ${weld.material}: ask the maker of the filler`);
    if (!ratings.some((one) => one.joint === joint))
      miss(joint, "the static rating of its rod end, ball joint or bush: ask its maker");
  }
  return [...rows].map(([part, missing]) => ({ part, missing }));

  function missMaterial(part: string, id: string): boolean {
    if (materialOf(id, materials)) return false;
    miss(part, `what ${id} is: it stands neither among the scene's materials nor in the table`);
    return true;
  }
}

const SIZES = {
  link: "the tube: diameter, wall, material",
  wishbone: "the legs' tubes: diameter, wall, material",
  strut: "the leg's tube: diameter, wall, material; its rod is the maker's",
  ball: "the arm's section where it is weakest, and its material",
  hinge: "the arm's section where it is weakest, and its material",
} as const;

/** The joints by name, first those met first; the drop link's only where a case winds the bar up. */
function loadedJoints(states: readonly LoadedState[]): string[] {
  const joints = new Set<string>();
  for (const { loads } of states) for (const { id } of loads.joints) joints.add(id);
  return [...joints].filter((id) => !id.startsWith("driveshaft."));
}
