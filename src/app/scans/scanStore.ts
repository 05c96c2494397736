import { create } from "zustand";
import type { Pose } from "../../maths/pose.ts";
import type { Vec3 } from "../../maths/vec3.ts";
import type { PickedPatch } from "../../scans/patch.ts";
import type { ScanLook, ScanRead, ScanStage, ScanThinned } from "../../scans/scanRoom.ts";
import type { LengthUnit } from "../../scene/meshFiles.ts";
import type { MeshRepair, MeshThinning } from "../../scene/scene.ts";

export const STEPS = ["file", "faults", "place", "fit", "thin", "part"] as const;
export type ScanStep = (typeof STEPS)[number];

export interface PairDraft {
  readonly key: number;
  readonly scan: Vec3 | null;
  readonly car: Vec3 | null;
  /** The hard point that `car` is; null: a place. */
  readonly point: string | null;
}

export type Patch = Pick<PickedPatch, "fitted" | "points">;

/** What a fitted surface of the scan must lie in, car coordinates. */
export interface MatchTarget {
  readonly at: Vec3;
  /** Normal of the plane, or way of the axis; unit vector. */
  readonly way: Vec3;
  /** As the list names it. */
  readonly name: string;
}

export interface MatchDraft {
  readonly key: number;
  readonly kind: "plane" | "cylinder";
  readonly patch: Patch | null;
  readonly target: MatchTarget | null;
}

/** What the next tap on the picture is for. */
export type Picking =
  | { readonly kind: "pair"; readonly key: number; readonly end: "scan" | "car" }
  | { readonly kind: "match"; readonly key: number; readonly end: "scan" | "car" };

export type ShownIn = "scan" | "car" | "both";

export interface ScanDraft {
  readonly isOpen: boolean;
  readonly step: ScanStep;
  /** Id of the part that is being changed; null: a new one. */
  readonly editing: string | null;
  readonly file: { readonly name: string; readonly bytes: Uint8Array } | null;
  readonly read: ScanRead | null;
  readonly unit: LengthUnit | null;
  readonly repair: MeshRepair | null;
  readonly look: ScanLook | null;
  /** What the worker is at; null: nothing. */
  readonly stage: ScanStage | null;
  /** How much of it is done, 0 to 1; null: not known. */
  readonly share: number | null;
  readonly trouble: string | null;
  readonly pairs: readonly PairDraft[];
  readonly matches: readonly MatchDraft[];
  readonly picking: Picking | null;
  readonly shown: ShownIn;
  /** Where it stands without pairs: as its file has it, or where the scene has it. */
  readonly given: Pose;
  readonly thinned: MeshThinning | null;
  readonly thinning: ScanThinned | "nothing" | null;
  readonly id: string;
  readonly on: string;
  readonly role: string;
}

let lastKey = 0;
export const nextKey = (): number => ++lastKey;

export const blankPair = (): PairDraft => ({ key: nextKey(), scan: null, car: null, point: null });

export function blankDraft(): ScanDraft {
  return {
    isOpen: false,
    step: "file",
    editing: null,
    file: null,
    read: null,
    unit: null,
    repair: null,
    look: null,
    stage: null,
    share: null,
    trouble: null,
    pairs: [blankPair(), blankPair(), blankPair()],
    matches: [],
    picking: null,
    shown: "scan",
    given: Float64Array.of(1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0),
    thinned: null,
    thinning: null,
    id: "scan",
    on: "chassis",
    role: "",
  };
}

/** The scan that is being brought in; neither saved nor undone until it is. */
export const useScan = create<ScanDraft>()(blankDraft);
