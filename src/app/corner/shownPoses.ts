import { viewHandle } from "../shell/viewHandle.ts";
import { liveMounts, posesOnMounts } from "../store/livePoses.ts";
import { pace } from "../store/pace.ts";
import type { SessionState } from "../store/state.ts";
import type { AppStore } from "../store/store.ts";

type Travel = SessionState["travel_mm"];

/** Every mount as the view shows it; the same map for the same arguments as last time. */
export const shownMounts = keepingLast(
  (scene: Parameters<typeof liveMounts>[0], travel_mm: Travel, pose: string, share: number) =>
    liveMounts(scene, { travel_mm, pose, share }),
);

/** Every body as the view shows it; the same map for the same arguments as last time. */
export const shownPoses = keepingLast(posesOnMounts);

/** The travel that the view shows: it may still be on its way to what is wanted. */
const seen: { travel_mm: Travel | null } = { travel_mm: null };

export function noteSeenTravel(travel_mm: Travel): void {
  seen.travel_mm = travel_mm;
}

/** null before anything was shown. */
export function seenTravel(): Travel | null {
  return seen.travel_mm;
}

/** While the hand pulls, moves the picture's bodies with every new scene; what else shows it follows after the frame. */
export function followHand(store: AppStore): () => void {
  return store.subscribe(({ scene, bodies, pose, share }, before) => {
    if (!pace.pulling || !scene || scene === before.scene || !seen.travel_mm) return;
    viewHandle.current?.setPoses(shownPoses(scene, bodies, shownMounts(scene, seen.travel_mm, pose, share)));
  });
}

function keepingLast<A extends readonly unknown[], R>(make: (...args: A) => R): (...args: A) => R {
  let last: { readonly args: A; readonly made: R } | null = null;
  return (...args) => {
    if (!last?.args.every((arg, i) => Object.is(arg, args[i]))) last = { args, made: make(...args) };
    return last.made;
  };
}
