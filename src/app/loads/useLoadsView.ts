import { useMemo } from "react";
import type { CornerLoads } from "../../loads/forces.ts";
import type { Vec3 } from "../../maths/vec3.ts";
import { InputError } from "../../scene/error.ts";
import type { LoadCase, Loads } from "../../scene/loadRecords.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import type { SessionState } from "../store/state.ts";
import { useApp } from "../store/useApp.ts";
import { useTools } from "../tools/toolsStore.ts";
import { type Arrow, arrowScale, arrowsOf } from "./arrows.ts";
import { useLoadsLook } from "./loadsStore.ts";
import { isLack, itsLoads, type LoadsLack, loadsHere, shownCase } from "./shownLoads.ts";
import { carOf, useAtDistance } from "./useAtDistance.ts";

/** What the view shows of the loads: nothing while they are closed. */
export interface LoadsView {
  /** Whose forces these are. */
  readonly scene: Scene | null;
  readonly arrows: readonly Arrow[];
  readonly mm_per_N: number;
  /** Tail and tip of each arrow, one after another. */
  readonly marks: readonly Vec3[];
}

const NONE: LoadsView = { scene: null, arrows: [], mm_per_N: 1, marks: [] };

/** `travel_mm`: as it is drawn. */
export function useLoadsView(travel_mm: SessionState["travel_mm"]): LoadsView {
  const isOpen = useTools(({ open }) => open === "loads");
  const look = useLoadsLook();
  // a pulled point is followed at a distance, the wheel and the engine at once
  const { scene, document } = useAtDistance(carOf, { isOn: isOpen });
  const pose = useApp((state) => state.pose);
  const share = useApp((state) => state.share);
  const shown = useMemo(() => {
    if (!isOpen || !scene || !document) return null;
    try {
      const loads = itsLoads(document);
      const side = shownSide(scene, look.side);
      const loadCase = shownCase({ ...scene, loads }, look.caseId);
      return { scene, loads, side, loadCase, ride: ridden(scene, loads, side, loadCase) };
    } catch (error) {
      if (error instanceof InputError) return null;
      throw error;
    }
  }, [isOpen, scene, document, look.side, look.caseId]);
  const side_mm = shown ? travel_mm[shown.side] : 0;
  return useMemo(() => {
    if (!shown) return NONE;
    const here = loadsHere(shown.scene, shown.loads, shown.side, shown.loadCase, { travel_mm: side_mm, pose, share });
    if (isLack(here)) return NONE;
    const mm_per_N = arrowScale([here, shown.ride]);
    const arrows = arrowsOf(here, mm_per_N);
    return { scene: shown.scene, arrows, mm_per_N, marks: arrows.flatMap(({ tail, tip }) => [tail, tip]) };
  }, [shown, side_mm, pose, share]);
}

/** The chosen side where the scene has it, else the one that it has. */
export function shownSide(scene: Scene, side: Side): Side {
  return scene.sides.includes(side) ? side : scene.sides[0]!;
}

function ridden(scene: Scene, loads: Loads, side: Side, loadCase: LoadCase | undefined): CornerLoads | null {
  const found: CornerLoads | LoadsLack = loadsHere(scene, loads, side, loadCase, {
    travel_mm: 0,
    pose: "rest",
    share: 1,
  });
  return isLack(found) ? null : found;
}
