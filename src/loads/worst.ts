import { length } from "../maths/vec3.ts";
import type { CornerLoads } from "./forces.ts";
import type { LoadedAt, LoadedState } from "./runLoads.ts";

export type LoadKind = "force" | "tension" | "compression" | "bending" | "spin" | "torque";

/** The greatest of one load on one part over all states. */
export interface WorstLoad {
  /** A joint ("upper.inboard"), a stretch of a member ("upper", "lower front"), "damper" or "driveshaft". */
  readonly part: string;
  readonly kind: LoadKind;
  /** N, or N·mm for bending, spin and torque; never negative. */
  readonly value: number;
  readonly at: LoadedAt;
}

/** What was nothing in every state is left out. In the order of the parts: members, damper, shaft, joints. */
export function worstLoads(states: readonly LoadedState[]): WorstLoad[] {
  const worst = new Map<string, WorstLoad>();
  for (const { at, loads } of states) {
    for (const [part, kind, value] of valuesOf(loads)) {
      const key = `${part}|${kind}`;
      const known = worst.get(key);
      if (!known || value > known.value) worst.set(key, { part, kind, value, at });
    }
  }
  return [...worst.values()].filter(({ value }) => value > NOTHING);
}

/** N or N·mm: rounding. */
const NOTHING = 1e-6;

function* valuesOf({ members, damper_N, shaft, joints }: CornerLoads): Generator<[string, LoadKind, number]> {
  for (const { id, sections, spin_Nmm } of members) {
    for (const { name, axial_N, bending_Nmm } of sections) {
      const part = name === "whole" ? id : `${id} ${name}`;
      yield [part, "tension", axial_N];
      yield [part, "compression", -axial_N];
      yield [part, "bending", bending_Nmm];
    }
    if (spin_Nmm !== null) yield [id, "spin", Math.abs(spin_Nmm)];
  }
  yield ["damper", "compression", damper_N];
  yield ["damper", "tension", -damper_N];
  if (shaft) yield ["driveshaft", "torque", Math.abs(shaft.torque_Nmm)];
  for (const { id, force_N } of joints) yield [id, "force", length(force_N)];
}
