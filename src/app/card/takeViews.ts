import type { CardView, ViewState } from "../../buildlog/entry.ts";
import { byGravity } from "../../buildlog/order.ts";
import type { PairVerdict } from "../../check/result.ts";
import { seenTravel, shownMounts, shownPoses } from "../corner/shownPoses.ts";
import { viewHandle } from "../shell/viewHandle.ts";
import type { App } from "../store/actions.ts";
import { isInPose, pairKey } from "../store/state.ts";
import { clampTravel } from "../store/travelReach.ts";
import { app } from "../store/useApp.ts";
import { readPicture } from "./readPicture.ts";

type Standing = Pick<App, "travel_mm" | "wheels" | "pose" | "share" | "chosenPair">;

/** How long a picture waits for the contact patch that it is about: it is taken without, rather than never. */
const PATCH_WITHIN_MS = 15_000;

/** The states that pictures can be taken in: the worst clash only where something clashes or is tight. */
export function viewStates(state: Pick<App, "result">): readonly ViewState[] {
  return worstOf(state) ? ["ride", "bump", "droop", "worst"] : ["ride", "bump", "droop"];
}

/**
 * Pictures of the car in other states than the one that is shown, from where the builder looks; the wheels and the engine are
 * put there one after another, and back where they were. Rejects with the taker's own error.
 */
export async function takeViews(
  states: readonly ViewState[],
  takePicture: () => Promise<Blob>,
): Promise<readonly CardView[]> {
  const { travel_mm, wheels, pose, share, chosenPair } = app.getState();
  const views: CardView[] = [];
  try {
    for (const state of states) {
      const standing = standingIn(app.getState(), state);
      if (!standing) continue;
      app.setState(standing);
      await whenShown(standing);
      const picture = await readPicture(takePicture);
      const { travel_mm: at_mm, pose: engine, share: way } = standing;
      views.push({ name: "", state, travel_mm: at_mm, pose: engine, ...(way === 1 ? {} : { share: way }), picture });
    }
  } finally {
    if (states.length > 0) app.setState({ travel_mm, wheels, pose, share, chosenPair });
  }
  return views;
}

function standingIn(state: App, view: ViewState): Standing | null {
  if (view === "worst") {
    const worst = worstOf(state);
    if (!worst) return null;
    const { travel_mm, pose, share = 1 } = worst.at;
    return { ...bothAt(state, travel_mm), pose, share, chosenPair: pairKey(worst) };
  }
  const { scene } = state;
  if (!scene) return null;
  const travel_mm = view === "ride" ? 0 : view === "bump" ? scene.travel.bump_mm : -scene.travel.droop_mm;
  return { ...bothAt(state, travel_mm), pose: "rest", share: 1, chosenPair: null };
}

/** Both wheels as far as the corner goes. */
function bothAt(state: App, travel_mm: number): Pick<Standing, "travel_mm" | "wheels"> {
  const [left, right] = (["left", "right"] as const).map((side) => clampTravel(state, side, travel_mm));
  return { travel_mm: { left: left!, right: right! }, wheels: "together" };
}

function worstOf({ result }: Pick<App, "result">): PairVerdict | null {
  const [worst] = [...(result?.pairs ?? [])].sort(byGravity);
  return worst && (worst.verdict === "clash" || worst.verdict === "tight") ? worst : null;
}

/** The wheels ease to where they are wanted; the chosen pair's patch comes from a worker. */
async function whenShown({ chosenPair, pose, share, travel_mm }: Standing): Promise<void> {
  while (viewHandle.current && !isSeen(travel_mm)) await nextFrame();
  if (chosenPair !== null) {
    const isThere = ({ patches }: App) => {
      const at = patches.get(chosenPair)?.at;
      return at !== undefined && isInPose(at, pose, share) && Object.values(travel_mm).includes(at.travel_mm);
    };
    await until(isThere);
  }
  const { scene, bodies } = app.getState();
  // the engine does not ease: its pose may not have come to the picture yet
  if (scene) viewHandle.current?.setPoses(shownPoses(scene, bodies, shownMounts(scene, travel_mm, pose, share)));
  // what hangs on the choice of a pair is drawn anew in the next frames
  await nextFrame();
  await nextFrame();
}

function isSeen(travel_mm: Standing["travel_mm"]): boolean {
  const seen = seenTravel();
  return seen === null || (seen.left === travel_mm.left && seen.right === travel_mm.right);
}

function until(holds: (state: App) => boolean): Promise<void> {
  if (holds(app.getState())) return Promise.resolve();
  return new Promise((resolve) => {
    const done = () => {
      clearTimeout(timer);
      unsubscribe();
      resolve();
    };
    const timer = setTimeout(done, PATCH_WITHIN_MS);
    const unsubscribe = app.subscribe((state) => holds(state) && done());
  });
}

const nextFrame = () => new Promise((resolve) => requestAnimationFrame(resolve));
