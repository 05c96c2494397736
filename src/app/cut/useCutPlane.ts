import { useMemo } from "react";
import type { MeasuredState } from "../../check/measures.ts";
import { add, mix, scale, type Vec3 } from "../../maths/vec3.ts";
import { ridesOfPoints } from "../../scene/pointRide.ts";
import type { Stage } from "../corner/useStage.ts";
import { MARK_STEP_MM } from "../parts/handles.ts";
import { useApp } from "../store/useApp.ts";
import { type CutPlane, cornersOf, cutPlane } from "./cutPlane.ts";
import { useCut } from "./cutStore.ts";

export interface CutView {
  readonly plane: CutPlane | null;
  readonly state: MeasuredState | null;
  /** The frame's corners, the knob, and a step along its way. */
  readonly marks: readonly Vec3[];
}

/** The section plane where things are shown. */
export function useCutPlane({ poses, mounts }: Stage): CutView {
  const wish = useCut();
  const document = useApp((state) => state.document);
  const scene = useApp((state) => state.scene);
  const bodies = useApp((state) => state.bodies);
  const rides = useMemo(() => (document ? ridesOfPoints(document) : null), [document]);
  const state = useMemo(
    () => (wish.way !== null && scene && rides ? { scene, poses, mounts, rides } : null),
    [wish.way, scene, rides, poses, mounts],
  );
  const found = state ? cutPlane(wish, bodies, state) : null;
  // a wheel that runs moves no plane that does not go by it
  const name = found && JSON.stringify(found);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the same plane under the same name
  const plane = useMemo(() => found, [name]);
  const marks = useMemo(() => {
    if (!plane) return [];
    const corners = cornersOf(plane);
    const knob = mix(corners[2]!, corners[3]!, 0.5);
    return [...corners, knob, add(knob, scale(plane.axis, MARK_STEP_MM))];
  }, [plane]);
  return { plane, state, marks };
}
