import type { TubeRecord } from "../../scene/loadRecords.ts";
import type { Member, Scene } from "../../scene/scene.ts";
import type { LoadedState } from "../runLoads.ts";
import { type RoundSection, roundSection, screenBar } from "./bar.ts";
import { drawnBow_mm } from "./drawnBow.ts";
import { type CheckName, type Finding, type NoteId, rowOf, type ScreenRow } from "./finding.ts";
import { type Material, materialOf } from "./materials.ts";

const NOTES: Readonly<Record<Member["kind"], readonly NoteId[]>> = {
  wishbone: ["lone leg"],
  strut: ["strut leg"],
  ball: ["ball cut"],
  hinge: ["hinge cut"],
  link: [],
};

/** Every tube that the scene tells, in tension with bending and in compression, at its worst state each. */
export function screenBars(scene: Scene, states: readonly LoadedState[]): ScreenRow[] {
  const { tubes, materials } = scene.loads;
  const cutCounts = new Map<string, number>();
  return tubes.flatMap((tube) => {
    const { member } = tube;
    if (tube.cut) cutCounts.set(member, (cutCounts.get(member) ?? 0) + 1);
    const material = materialOf(tube.material, materials);
    if (!material) return [];
    const section = roundSection(tube.diameter_mm, tube.wall_mm);
    const drawn = scene.members.find(({ id }) => id === member)!;
    const { kind } = drawn;
    const isBowDrawn = tube.bow_mm === undefined && drawn.kind === "link";
    const bow_mm = tube.bow_mm ?? (isBowDrawn ? drawnBow_mm(drawn) : 0);
    const notes = isBowDrawn && bow_mm > 0 ? (["drawn bow"] as const) : NOTES[kind];
    const only = tube.cut ? `cut ${cutCounts.get(member)}` : tube.section;
    return sectionNames(states, member, only).flatMap((name) => {
      const part = name === "whole" ? member : `${member} ${name}`;
      const row = (check: CheckName, isPushed: boolean) =>
        rowOf(
          part,
          check,
          tube.target ?? scene.loads.target,
          notes,
          states,
          barFinding({ ...tube, bow_mm }, name, section, material, isPushed),
        );
      // a wishbone that nothing rides on is not bent
      const bare = ({ inputs }: ScreenRow) => kind === "wishbone" && inputs.M_Nmm === 0;
      return [...row("tension", false), ...row("compression", true)].map((found) =>
        bare(found) ? { ...found, notes: [] } : found,
      );
    });
  });
}

/** A member has one stretch, or two where something rides on it, or two legs; `only` one of them, where it is split at all. */
function sectionNames(states: readonly LoadedState[], member: string, only: string | undefined): readonly string[] {
  const sections = states[0]?.loads.members.find(({ id }) => id === member)?.sections ?? [];
  const names = sections.map(({ name }) => name);
  return only !== undefined && names.includes(only) ? [only] : names;
}

/** Bending without a pull or push counts as tension. */
function barFinding(
  tube: TubeRecord & { readonly bow_mm: number },
  name: string,
  section: RoundSection,
  material: Material,
  isPushed: boolean,
) {
  const endConstant = tube.endConstant ?? 1;
  const { bow_mm } = tube;
  return ({ loads }: LoadedState): Finding | null => {
    const part = loads.members.find(({ id }) => id === tube.member)?.sections.find((one) => one.name === name);
    if (!part || part.axial_N < 0 !== isPushed) return null;
    const { axial_N, bending_Nmm, length_mm } = part;
    const found = screenBar(section, material, { axial_N, bending_Nmm, length_mm, endConstant, bow_mm });
    if (!found) return null;
    return {
      factor: found.factor,
      governedBy: found.governedBy,
      formula: found.formula,
      source: "bar",
      told: null,
      inputs: {
        N_N: axial_N,
        M_Nmm: bending_Nmm,
        D_mm: tube.diameter_mm,
        wall_mm: tube.wall_mm,
        A_mm2: section.area_mm2,
        I_mm4: section.second_mm4,
        Z_mm3: section.modulus_mm3,
        L_mm: length_mm,
        C: endConstant,
        bow_mm,
        Sy_MPa: material.yield_MPa,
        E_MPa: material.elastic_MPa,
        material: material.id,
      },
    };
  };
}
