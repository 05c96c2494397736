import type { PairVerdict } from "../../check/result.ts";
import type { Side } from "../../scene/scene.ts";
import type { App, GetApp, SessionActions, SetApp } from "./actions.ts";
import { pairsByKey } from "./pairsByKey.ts";
import { clampTravel } from "./travelReach.ts";

const OTHER: Readonly<Record<Side, Side>> = { left: "right", right: "left" };

export function sessionActions(set: SetApp, get: GetApp): SessionActions {
  const wheelsAt = (side: Side, travel_mm: number, state: App): App["travel_mm"] => {
    const mine = clampTravel(state, side, travel_mm);
    const other = clampTravel(state, OTHER[side], state.wheels === "together" ? mine : -mine);
    return side === "left" ? { left: mine, right: other } : { left: other, right: mine };
  };
  return {
    setTravel(side, travel_mm) {
      set({ travel_mm: wheelsAt(side, travel_mm, get()) });
    },
    stepTravel(by_mm) {
      const state = get();
      set({ travel_mm: wheelsAt("left", state.travel_mm.left + by_mm, state) });
    },
    setWheels(wheels) {
      set({ wheels, travel_mm: wheelsAt("left", get().travel_mm.left, { ...get(), wheels }) });
    },
    setPose(pose, share = 1) {
      if (get().scene?.powertrain.poses.some(({ id }) => id === pose)) set({ pose, share });
    },
    stepPose(by) {
      const poses = get().scene?.powertrain.poses ?? [];
      const at = poses.findIndex(({ id }) => id === get().pose);
      const next = poses[(at + by + poses.length) % poses.length];
      if (next) set({ pose: next.id, share: 1 });
    },
    setStand(stand) {
      set({ stand });
    },
    setShow(group, show) {
      set({ show: { ...get().show, [group]: show } });
    },
    hold(heldPart) {
      set({ heldPart });
    },
    toggleGlassHeld() {
      const { heldPart, glassParts } = get();
      if (heldPart === null) return;
      const others = glassParts.filter((part) => part !== heldPart);
      set({ glassParts: others.length < glassParts.length ? others : [...glassParts, heldPart] });
    },
    holdPoint(heldPoint) {
      set({ heldPoint });
    },
    choosePair(key) {
      const pair = key === null ? undefined : findPair(get(), key);
      if (!pair) return set({ chosenPair: null });
      const side = pair.side === "right" ? "right" : "left";
      const travel_mm = pair.side === "both" ? get().travel_mm : wheelsAt(side, pair.at.travel_mm, get());
      set({ chosenPair: key, travel_mm, pose: pair.at.pose, share: pair.at.share ?? 1 });
    },
    setCloseLook(closeLook) {
      set({ closeLook });
    },
    setPlace(place) {
      set({ place });
    },
    setUnit(unit) {
      set({ unit });
    },
    setTheme(theme) {
      set({ theme });
    },
    setStayAwake(stayAwake) {
      set({ stayAwake });
    },
    readCautions() {
      set({ cautionsRead: true });
    },
    setCardOpen(cardOpen) {
      set({ cardOpen });
    },
  };
}

export function findPair(state: Pick<App, "result">, key: string): PairVerdict | undefined {
  return state.result ? pairsByKey(state.result).get(key) : undefined;
}
