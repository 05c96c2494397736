import { create } from "zustand";
import type { Side } from "../../scene/scene.ts";
import { USUAL_SPARE_mm } from "../../studies/runningGear/shaft.ts";
import type { GearReport } from "../../work/gearReport.ts";
import type { Told } from "../store/reports.ts";
import { app } from "../store/useApp.ts";

export type GearTab = "shaft" | "spring" | "joints" | "roll";

interface GearLook {
  readonly tab: GearTab;
  /** Of the joints, which are listed for one side at a time. */
  readonly side: Side;
  /** The joint whose row stands open. */
  readonly openJoint: string | null;
  /** Plunge wanted at each end of the driveshafts. */
  readonly spare_mm: number;
}

const LOOK: GearLook = { tab: "shaft", side: "left", openJoint: null, spare_mm: USUAL_SPARE_mm };

/** Neither saved nor undone. */
export const useGearLook = create<GearLook>()(() => LOOK);

const NOTHING: Told<GearReport> = { report: null, stale: false, error: null };

/** What the workshop told last of the running gear. */
export const useGearTold = create<Told<GearReport>>()(() => NOTHING);

app.subscribe((state, before) => {
  if (state.fileName === before.fileName) return;
  useGearLook.setState({ ...LOOK, tab: useGearLook.getState().tab });
  useGearTold.setState(NOTHING);
});

export type GearFormName = "shaft" | "spring" | "vehicle";
export type GearForm = { readonly what: GearFormName } | { readonly what: "joint"; readonly joint: string };

/** Which form of the running gear's records is open. */
export const useGearForm = create<{ readonly open: GearForm | null }>()(() => ({ open: null }));

export function openGearForm(open: GearForm): void {
  useGearForm.setState({ open });
}

export function closeGearForm(): void {
  useGearForm.setState({ open: null });
}
