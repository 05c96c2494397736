import { describe, expect, it } from "vitest";
import { livePoses, wheelCentre } from "../../src/app/store/livePoses.ts";
import { pairKey } from "../../src/app/store/state.ts";
import { createAppStore } from "../../src/app/store/store.ts";
import type { ModelBody } from "../../src/check/model.ts";
import { applyPose } from "../../src/maths/pose.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { checkResult, pairVerdict, smallScene } from "./smallScene.ts";

const scene = resolveScene(smallScene());

function shown() {
  const store = createAppStore();
  store.setState({ document: smallScene(), scene });
  return store;
}

function body(change: Partial<ModelBody>): ModelBody {
  const solid = { positions: new Float32Array(), indices: new Uint32Array(), shells: [], convexPieces: null };
  return {
    key: "x",
    id: "x",
    side: "left",
    mount: "carrier",
    group: "hub",
    role: null,
    look: null,
    solid,
    content: "",
    ...change,
  };
}

describe("travel", () => {
  it("wheels together move alike, wheels opposed against each other", () => {
    const store = shown();
    store.getState().setTravel("right", 30);
    expect(store.getState().travel_mm).toEqual({ left: 30, right: 30 });
    store.getState().setWheels("opposed");
    expect(store.getState().travel_mm).toEqual({ left: 30, right: -30 });
    store.getState().stepTravel(5);
    expect(store.getState().travel_mm).toEqual({ left: 35, right: -35 });
  });

  it("stays within the scene's travel", () => {
    const store = shown();
    store.getState().setTravel("left", 500);
    expect(store.getState().travel_mm.left).toBe(60);
    store.getState().setTravel("left", -500);
    expect(store.getState().travel_mm.left).toBe(-70);
  });

  it("is the height of the wheel centre over ride height, on both sides", () => {
    for (const travel_mm of [-70, -12, 0, 33, 60]) {
      const [left, right] = [wheelCentre(scene, "left", travel_mm), wheelCentre(scene, "right", travel_mm)];
      expect(left[2]).toBeCloseTo(300 + travel_mm, 6);
      expect(right).toEqual([left[0], -left[1], left[2]]);
    }
  });
});

describe("live poses", () => {
  const bodies = [
    body({ key: "hub@left" }),
    body({ key: "hub@right", side: "right" }),
    body({ key: "upper@left", mount: "upper", group: "arms" }),
    body({ key: "ear", side: "both", mount: "powertrain", group: "powertrain" }),
    body({ key: "rail", side: "both", mount: "chassis", group: "chassis" }),
  ];

  it("at ride height with the engine at rest every part stands where it is drawn", () => {
    for (const pose of livePoses(scene, bodies, { travel_mm: { left: 0, right: 0 }, pose: "rest" }).values()) {
      const at = applyPose(pose, [100, 200, 300]);
      expect(Math.hypot(at[0] - 100, at[1] - 200, at[2] - 300)).toBeLessThan(1e-9);
    }
  });

  it("the chassis stands still, the engine takes its pose, an arm keeps to its bushes and its joint", () => {
    const poses = livePoses(scene, bodies, { travel_mm: { left: 40, right: -40 }, pose: "pulling" });
    expect(applyPose(poses.get("rail")!, [1, 2, 3])).toEqual([1, 2, 3]);
    // 3° about the crosswise axis through (150, 0, 400): a point 100 behind it rises by 100·sin 3°
    expect(applyPose(poses.get("ear")!, [50, 0, 400])[2] - 400).toBeCloseTo(100 * Math.sin(Math.PI / 60), 9);
    const bush = applyPose(poses.get("upper@left")!, [90, 420, 425]);
    expect(Math.hypot(bush[0] - 90, bush[1] - 420, bush[2] - 425)).toBeLessThan(1e-6);
    const [arm, hub] = [poses.get("upper@left")!, poses.get("hub@left")!].map((pose) =>
      applyPose(pose, [-5, 660, 440]),
    );
    expect(Math.hypot(arm![0] - hub![0], arm![1] - hub![1], arm![2] - hub![2])).toBeLessThan(1e-6);
    expect(applyPose(poses.get("hub@right")!, [0, -740, 300])[2]).toBeCloseTo(260, 6);
  });

  it("the engine stands as far on its way to the pose as it is shown", () => {
    const at = { travel_mm: { left: 0, right: 0 }, pose: "pulling", share: 0.4 };
    const ear = livePoses(scene, bodies, at).get("ear")!;
    expect(applyPose(ear, [50, 0, 400])[2] - 400).toBeCloseTo(100 * Math.sin((0.4 * Math.PI) / 60), 9);
  });
});

describe("choosing a pair", () => {
  it("takes the wheel and the engine to where it is worst", () => {
    const store = shown();
    const pair = pairVerdict();
    store.setState({ result: checkResult([pair]) });
    store.getState().choosePair(pairKey(pair));
    expect(store.getState().travel_mm.left).toBe(38);
    expect(store.getState().pose).toBe("pulling");
    expect(store.getState().share).toBe(1);
  });

  it("takes the engine part of the way where it is worst there, and to the pose itself when that is chosen", () => {
    const store = shown();
    const pair = pairVerdict({ at: { travel_mm: 38, pose: "pulling", share: 0.375 } });
    store.setState({ result: checkResult([pair]) });
    store.getState().choosePair(pairKey(pair));
    expect(store.getState()).toMatchObject({ pose: "pulling", share: 0.375 });
    store.getState().setPose("pulling");
    expect(store.getState()).toMatchObject({ pose: "pulling", share: 1 });
  });

  it("a pair of the right side moves the right wheel", () => {
    const store = shown();
    store.getState().setWheels("opposed");
    const pair = pairVerdict({ side: "right", at: { travel_mm: -20, pose: "rest" } });
    store.setState({ result: checkResult([pair]) });
    store.getState().choosePair(pairKey(pair));
    expect(store.getState().travel_mm).toEqual({ left: 20, right: -20 });
  });

  it("a pair that is not there lets go", () => {
    const store = shown();
    store.setState({ result: checkResult([]), chosenPair: "left/a/b" });
    store.getState().choosePair("left/c/d");
    expect(store.getState().chosenPair).toBeNull();
  });
});

describe("leaving a pair out", () => {
  it("writes the reason into the scene as a step, and takes it out again", () => {
    const store = shown();
    store.getState().acceptPair("ear", "upper", "rubber flap");
    store.getState().acceptPair("upper", "ear", "rubber flap, meant to touch");
    expect(store.getState().document!.clearances.accept).toEqual([
      { a: "upper", b: "ear", why: "rubber flap, meant to touch" },
    ]);
    store.getState().countPair("ear", "upper");
    expect(store.getState().document!.clearances.accept).toEqual([]);
    store.getState().undo();
    expect(store.getState().document!.clearances.accept).toHaveLength(1);
  });
});
