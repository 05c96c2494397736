import type { CornerLoads, JointLoad, MemberLoad } from "../../loads/forces.ts";
import type { LoadedAt } from "../../loads/runLoads.ts";
import type { LoadKind, WorstLoad } from "../../loads/worst.ts";
import { length, type Vec3 } from "../../maths/vec3.ts";
import { GROUND } from "./arrows.ts";
import { memberOf } from "./partNames.ts";

export type RowKind = "force" | "axial" | "bending" | "spin" | "torque";
export type RowGroup = "ground" | "members" | "units" | "joints";

/** One line of the table: one load of one part, here and at its worst. */
export interface ForceRow {
  readonly key: string;
  readonly group: RowGroup;
  /** A joint, a stretch of a member, "damper", "driveshaft" or "ground". */
  readonly part: string;
  readonly kind: RowKind;
  /** N or N·mm; of an axial one tension positive. null: nothing here. */
  readonly here: number | null;
  /** Of an axial one the worst pull and the worst push. */
  readonly worst: readonly WorstOfRow[];
  /** Whose arrows belong to it. */
  readonly arrows: string;
  readonly joint: JointLoad | null;
  readonly member: MemberLoad | null;
  /** Of the ground alone. */
  readonly force_N: Vec3 | null;
}

export interface WorstOfRow {
  readonly kind: LoadKind;
  readonly value: number;
  readonly at: LoadedAt;
}

const KIND: Readonly<Record<LoadKind, RowKind>> = {
  force: "force",
  tension: "axial",
  compression: "axial",
  bending: "bending",
  spin: "spin",
  torque: "torque",
};

/** Everything that is loaded here or in any state, in the order of the car: wheel, members, damper and shaft, joints. */
export function forceRows(
  here: CornerLoads,
  worst: readonly WorstLoad[],
  scene: { readonly members: readonly { readonly id: string; readonly kind: string }[] },
): ForceRow[] {
  const rows = new Map<string, ForceRow>();
  const put = (row: Omit<ForceRow, "key" | "worst" | "joint" | "member" | "force_N"> & Partial<ForceRow>) => {
    const key = `${row.part}|${row.kind}`;
    rows.set(key, { joint: null, member: null, force_N: null, worst: [], ...row, key });
  };
  put({
    group: "ground",
    part: GROUND,
    kind: "force",
    here: length(here.ground.force_N),
    arrows: GROUND,
    force_N: here.ground.force_N,
  });
  for (const member of here.members) {
    for (const { name, axial_N, bending_Nmm } of member.sections) {
      const part = name === "whole" ? member.id : `${member.id} ${name}`;
      const shared = { group: "members", part, arrows: member.id, member } as const;
      if (member.kind !== "strut") put({ ...shared, kind: "axial", here: axial_N });
      if (bending_Nmm > NOTHING) put({ ...shared, kind: "bending", here: bending_Nmm });
    }
    if (member.spin_Nmm !== null && Math.abs(member.spin_Nmm) > NOTHING)
      put({
        group: "members",
        part: member.id,
        kind: "spin",
        here: Math.abs(member.spin_Nmm),
        arrows: member.id,
        member,
      });
  }
  put({ group: "units", part: "damper", kind: "axial", here: -here.damper_N, arrows: "damper" });
  if (here.shaft) {
    const torque = Math.abs(here.shaft.torque_Nmm);
    put({ group: "units", part: "driveshaft", kind: "torque", here: torque, arrows: "driveshaft" });
  }
  for (const joint of here.joints)
    put({ group: "joints", part: joint.id, kind: "force", here: length(joint.force_N), arrows: joint.id, joint });
  for (const { part, kind, value, at } of worst) {
    const key = `${part}|${KIND[kind]}`;
    const known = rows.get(key) ?? bare(part, KIND[kind], scene);
    rows.set(key, { ...known, worst: [...known.worst, { kind, value, at }] });
  }
  const all = [...rows.values()];
  return GROUPS.flatMap((group) => all.filter((row) => row.group === group)).sort(byMember(all));
}

/** N or N·mm: rounding. */
const NOTHING = 1e-6;
const GROUPS: readonly RowGroup[] = ["ground", "members", "units", "joints"];

/** What is loaded in another state only. */
function bare(part: string, kind: RowKind, scene: Parameters<typeof memberOf>[1]): ForceRow {
  const isJoint = kind === "force";
  const isUnit = part === "damper" || part === "driveshaft";
  const group = isUnit ? "units" : isJoint ? "joints" : "members";
  const arrows = group === "members" ? (memberOf(part, scene) ?? part) : part;
  return {
    key: `${part}|${kind}`,
    group,
    part,
    kind,
    here: null,
    worst: [],
    arrows,
    joint: null,
    member: null,
    force_N: null,
  };
}

/** Rows of one member stand together, whichever of them came from another state. */
function byMember(all: readonly ForceRow[]): (a: ForceRow, b: ForceRow) => number {
  const first = new Map<string, number>();
  all.forEach(({ group, arrows }, i) => {
    const key = group === "members" ? arrows : "";
    if (!first.has(key)) first.set(key, i);
  });
  return (a, b) => {
    if (a.group !== "members" || b.group !== "members") return 0;
    return first.get(a.arrows)! - first.get(b.arrows)!;
  };
}
