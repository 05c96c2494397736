import type { Vec3 } from "../maths/vec3.ts";
import type { SceneDocument } from "./document.ts";

type Document = NonNullable<SceneDocument["loads"]>;
type Item<Key extends keyof Document> = NonNullable<Document[Key]> extends readonly (infer Entry)[] ? Entry : never;

/** What the scene says of loads, with points in car coordinates and the defaults filled in. */
export interface Loads {
  /** What a scale under the wheel reads at ride height; null: not told. */
  readonly cornerMass_kg: { readonly left: number | null; readonly right: number | null };
  /** Of either wheel's mass, what moves with it; null: not told. */
  readonly unsprung_kg: number | null;
  readonly brakes: "outboard" | "inboard";
  /** null: the scene has no cases of its own; an empty list means none. */
  readonly cases: readonly LoadCase[] | null;
  readonly target: number | null;
  readonly materials: readonly Item<"materials">[];
  readonly tubes: readonly TubeRecord[];
  readonly bolts: readonly BoltRecord[];
  readonly plates: readonly Item<"plates">[];
  readonly welds: readonly Item<"welds">[];
  readonly ratings: readonly Item<"ratings">[];
}

export interface LoadCase {
  readonly id: string;
  /** Forward, out, up; times the static wheel load. */
  readonly timesStatic: Vec3;
  /** Forward, out, up; added to it. */
  readonly force_N: Vec3;
  readonly torque: "carrier" | "shaft" | "free" | null;
  readonly roll_deg: number;
}

export type TubeRecord = Omit<Item<"tubes">, "cut"> & { readonly cut: Vec3 | null };
export type BoltRecord = Omit<Item<"bolts">, "axis"> & { readonly axis: Vec3 | null };
export type PlateRecord = Item<"plates">;
export type WeldRecord = Item<"welds">;
export type RatingRecord = Item<"ratings">;
export type MaterialRecord = Item<"materials">;

/** Of a scene that says nothing of loads. */
export const NO_LOADS: Loads = {
  cornerMass_kg: { left: null, right: null },
  unsprung_kg: null,
  brakes: "outboard",
  cases: null,
  target: null,
  materials: [],
  tubes: [],
  bolts: [],
  plates: [],
  welds: [],
  ratings: [],
};
