import { useLayoutEffect, useMemo } from "react";
import type { ModelBody, PartGroup } from "../../check/model.ts";
import type { PairVerdict } from "../../check/result.ts";
import type { Pose } from "../../maths/pose.ts";
import type { Vec3 } from "../../maths/vec3.ts";
import type { Scene } from "../../scene/scene.ts";
import { type LiveMounts, livePoses, wheelCentre } from "../store/livePoses.ts";
import { findPair } from "../store/sessionActions.ts";
import { isInPose, type PatchInHand, pairKey, type SessionState } from "../store/state.ts";
import { useApp, useAppLater } from "../store/useApp.ts";
import { standDirection } from "../viewport/cameraPlace.ts";
import type { ShownPatch } from "../viewport/patchLayer.ts";
import { blockersOf } from "./blockers.ts";
import { noteSeenTravel, shownMounts, shownPoses } from "./shownPoses.ts";
import { touchNow } from "./touch.ts";
import { useEasedTravel } from "./useEasedTravel.ts";

/** What the view shows of the state. */
export interface Stage {
  /** As it is drawn: on the way where it jumps. */
  readonly travel_mm: SessionState["travel_mm"];
  readonly mounts: LiveMounts;
  readonly poses: ReadonlyMap<string, Pose>;
  readonly pair: PairVerdict | null;
  readonly touch: Vec3 | null;
  readonly glassKeys: ReadonlySet<string>;
  /** The two of the chosen touch. */
  readonly touchKeys: ReadonlySet<string>;
  /** Body ids, or keys where only one side is meant. */
  readonly heldIds: ReadonlySet<string>;
  readonly patches: readonly ShownPatch[];
  readonly crossing: readonly Float32Array[];
  /** The touch (where there is one) and the wheel centres, in this order. */
  readonly marks: readonly Vec3[];
}

const NO_MOUNTS: LiveMounts = new Map();
const NO_POSES: ReadonlyMap<string, Pose> = new Map();
const NO_KEYS: ReadonlySet<string> = new Set();
const NO_CURVES: readonly Float32Array[] = [];

export function useStage(): Stage {
  const scene = useApp((state) => state.scene);
  const bodies = useApp((state) => state.bodies);
  const pose = useApp((state) => state.pose);
  const share = useApp((state) => state.share);
  const travel_mm = useEasedTravel(useApp((state) => state.travel_mm));
  const pair = useApp((state) => (state.chosenPair === null ? null : (findPair(state, state.chosenPair) ?? null)));
  const heldPart = useApp((state) => state.heldPart);
  const glassParts = useApp((state) => state.glassParts);
  const result = useAppLater((state) => state.result);
  const inHand = useApp((state) => state.patches);

  useLayoutEffect(() => noteSeenTravel(travel_mm), [travel_mm]);
  const mounts = useMemo(
    () => (scene ? shownMounts(scene, travel_mm, pose, share) : NO_MOUNTS),
    [scene, travel_mm, pose, share],
  );
  const poses = useMemo(() => (scene ? shownPoses(scene, bodies, mounts) : NO_POSES), [scene, bodies, mounts]);
  const touch = useMemo(
    () => (pair && scene ? touchNow(pair, scene, bodies, poses) : null),
    [pair, scene, bodies, poses],
  );
  const blockers = useBlockers(pair, scene, bodies);
  const glassKeys = useMemo(() => withParts(blockers, bodies, glassParts), [blockers, bodies, glassParts]);
  const touchKeys = useMemo(() => (pair ? new Set(pair.keys) : NO_KEYS), [pair]);
  const heldIds = useMemo(() => held(heldPart, pair, bodies), [heldPart, pair, bodies]);
  const patches = useMemo(() => shownPatches(result?.pairs ?? [], inHand), [result, inHand]);
  const chosen = pair && inHand.get(pairKey(pair));
  const crossing = useMemo(() => {
    const here = pair && travel_mm[pair.side === "right" ? "right" : "left"];
    const isHere =
      chosen && isInPose(chosen.at, pose, share) && (pair?.side === "both" || chosen.at.travel_mm === here);
    return isHere ? chosen.patch.crossing : NO_CURVES;
  }, [chosen, pair, pose, share, travel_mm]);
  const marks = useMemo(() => {
    const centres = scene ? scene.sides.map((side) => wheelCentre(scene, side, travel_mm[side])) : [];
    return touch ? [touch, ...centres] : centres;
  }, [scene, touch, travel_mm]);
  return { travel_mm, mounts, poses, pair, touch, glassKeys, touchKeys, heldIds, patches, crossing, marks };
}

/** What stands before the chosen touch at its worst state, seen from the stand; found when the pair or the stand changes, not on the way. */
function useBlockers(pair: PairVerdict | null, scene: Scene | null, bodies: readonly ModelBody[]): ReadonlySet<string> {
  const stand = useApp((state) => state.stand);
  return useMemo(() => {
    if (!pair || !scene || !stand) return NO_KEYS;
    const { azimuth_rad, elevation_rad } = standDirection(stand);
    const flat = Math.cos(elevation_rad);
    const towardsEye: Vec3 = [Math.cos(azimuth_rad) * flat, Math.sin(azimuth_rad) * flat, Math.sin(elevation_rad)];
    const { travel_mm, ...engine } = pair.at;
    const poses = livePoses(scene, bodies, { travel_mm: { left: travel_mm, right: travel_mm }, ...engine });
    return blockersOf(pair.pointA, towardsEye, bodies, poses, pair.keys);
  }, [pair, scene, bodies, stand]);
}

function withParts(keys: ReadonlySet<string>, bodies: readonly ModelBody[], parts: readonly string[]) {
  if (parts.length === 0) return keys;
  return new Set([...keys, ...bodies.filter(({ id }) => parts.includes(id)).map(({ key }) => key)]);
}

const MOVES_FIRST: readonly PartGroup[] = ["arms", "hub", "powertrain", "chassis"];

/** The held part, or of the chosen pair the one that moves with the wheel. */
function held(part: string | null, pair: PairVerdict | null, bodies: readonly ModelBody[]): ReadonlySet<string> {
  if (part !== null) return new Set([part]);
  if (!pair) return NO_KEYS;
  const two = bodies.filter(({ key }) => pair.keys.includes(key));
  two.sort((a, b) => MOVES_FIRST.indexOf(a.group) - MOVES_FIRST.indexOf(b.group));
  const mover = two[0];
  if (!mover) return NO_KEYS;
  // a spring is two bodies of one id; the other side's is not held
  return new Set(bodies.filter(({ id, side }) => id === mover.id && side === mover.side).map(({ key }) => key));
}

function shownPatches(pairs: readonly PairVerdict[], inHand: ReadonlyMap<string, PatchInHand>): ShownPatch[] {
  const shown: ShownPatch[] = [];
  if (inHand.size === 0) return shown;
  for (const pair of pairs) {
    const found = inHand.get(pairKey(pair));
    if (!found) continue;
    const { required_mm, keys } = pair;
    shown.push(
      { key: keys[0], patch: found.patch.a, required_mm },
      { key: keys[1], patch: found.patch.b, required_mm },
    );
  }
  return shown;
}
