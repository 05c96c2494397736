import { useMemo } from "react";
import type { ModelBody } from "../../check/model.ts";
import type { Vec3 } from "../../maths/vec3.ts";
import type { Scene } from "../../scene/scene.ts";
import { livePoses, wheelCentre } from "../store/livePoses.ts";
import { travelReach } from "../store/travelReach.ts";
import { useApp } from "../store/useApp.ts";
import type { Ghost } from "../viewport/ghostLayer.ts";
import { useGhosts } from "./ghostsStore.ts";

/** A tag at each wheel's centre of a ghost. */
export interface GhostTag {
  readonly at: Vec3;
  readonly travel_mm: number;
}

export interface GhostView {
  readonly ghosts: readonly Ghost[];
  readonly tags: readonly GhostTag[];
  readonly marks: readonly Vec3[];
}

const NO_GHOSTS: readonly Ghost[] = [];

/** The moving parts at full bump and droop, and at another engine pose, as asked for. */
export function useGhostView(): GhostView {
  const { bump, droop, pose: ghostPose } = useGhosts();
  const scene = useApp((state) => state.scene);
  const bodies = useApp((state) => state.bodies);
  const pose = useApp((state) => state.pose);
  const share = useApp((state) => state.share);
  const isPose = ghostPose !== null && scene?.powertrain.poses.some(({ id }) => id === ghostPose) === true;
  // a running wheel takes along only what is shown at its own travel
  const travel_mm = useApp((state) => (isPose ? state.travel_mm : null));
  const riding = useMemo(() => keysOf(bodies, ({ mount }) => mount !== "chassis" && mount !== "powertrain"), [bodies]);
  const rocking = useMemo(
    () => keysOf(bodies, ({ mount }) => mount === "powertrain" || mount === "driveshaft"),
    [bodies],
  );
  const ends = useMemo(() => {
    if (!scene) return NO_GHOSTS;
    return endsOf(scene, bump, droop).map(
      (travel_mm): Ghost => ({ keys: riding, poses: livePoses(scene, bodies, { travel_mm, pose, share }) }),
    );
  }, [scene, bodies, bump, droop, pose, share, riding]);
  const ghosts = useMemo(() => {
    if (!scene || !isPose || !travel_mm) return ends;
    const rocked = { keys: rocking, poses: livePoses(scene, bodies, { travel_mm, pose: ghostPose }) };
    return [...ends, rocked];
  }, [ends, scene, bodies, isPose, ghostPose, travel_mm, rocking]);
  const tags = useMemo(() => {
    if (!scene) return [];
    return endsOf(scene, bump, droop).flatMap((travel) =>
      scene.sides.map((side): GhostTag => ({ at: wheelCentre(scene, side, travel[side]), travel_mm: travel[side] })),
    );
  }, [scene, bump, droop]);
  const marks = useMemo(() => tags.map(({ at }) => at), [tags]);
  return { ghosts, tags, marks };
}

function endsOf(scene: Scene, bump: boolean, droop: boolean) {
  const [left, right] = (["left", "right"] as const).map((side) =>
    scene.sides.includes(side) ? travelReach({ scene }, side) : ([0, 0] as const),
  );
  const at = (end: 0 | 1) => ({ left: left![end], right: right![end] });
  return [...(bump ? [at(1)] : []), ...(droop ? [at(0)] : [])];
}

function keysOf(bodies: readonly ModelBody[], isOne: (body: ModelBody) => boolean): ReadonlySet<string> {
  return new Set(bodies.filter(isOne).map(({ key }) => key));
}
