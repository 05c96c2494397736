import type { SceneDocument } from "../../src/scene/document.ts";

type Point = readonly [number, number, number];

/**
 * The invented corner of the acceptance stories: a one-piece arm and hub on a front ball mount with an upper and a lower
 * lateral link, an engine rocking 3° about a crosswise axis, a sump rail above the upper link. Forward / out / up of the
 * stories are X / Y / Z of the left side.
 */
export function storyCorner(change: Partial<SceneDocument> = {}): SceneDocument {
  return {
    format: "elbowroom.scene",
    version: 1,
    title: "Story corner",
    sides: "left",
    points: {
      "arm.front": [430, 640, 330],
      "upper.in": [-20, 410, 425],
      "upper.out": [-20, 650, 430],
      "lower.in": [-70, 260, 200],
      "lower.out": [-70, 660, 205],
    },
    wheel: {
      centre: [0, 740, 300],
      tyre: "205/55R16",
      rimWidth_in: 7,
      rimOffset_mm: 42,
      toe_deg: 0.15,
      camber_deg: -1,
    },
    travel: { bump_mm: 60, droop_mm: 70, step_mm: 5 },
    members: [
      { id: "arm", kind: "ball", at: "arm.front", stock: "donor" },
      { id: "upper", kind: "link", inboard: "upper.in", outboard: "upper.out", diameter_mm: 30 },
      { id: "lower", kind: "link", inboard: "lower.in", outboard: "lower.out", diameter_mm: 30 },
    ],
    damper: {
      top: [-15, 548, 600],
      bottom: [-45, 600, 235],
      on: "carrier",
      closed_mm: 300,
      open_mm: 440,
      body_mm: 50,
      stopTouches_mm: 325,
      stopSolid_mm: 310,
    },
    driveshaft: {
      inner: [25, 235, 345],
      innerAxis: [0, 1, 0],
      outer: [0, 668, 300],
      diameter_mm: 26,
      shortest_mm: 419,
      longest_mm: 447,
      innerAngleLimit_deg: 23,
      outerAngleLimit_deg: 45,
    },
    powertrain: {
      poses: [
        // + about Y lifts what lies behind the axis
        { id: "tail-up", about: [150, 0, 400], axis: [0, 1, 0], angle_deg: 3 },
        { id: "tail-down", about: [150, 0, 400], axis: [0, 1, 0], angle_deg: -3 },
      ],
    },
    bodies: [
      {
        id: "sump-rail",
        on: "powertrain",
        // edge 455 out and 462 up, from 120 to 80 behind
        shape: { kind: "box", size_mm: [200, 60, 14], at: [20, 425, 469] },
      },
    ],
    tessellation_mm: 0.05,
    clearances: { default_mm: 10 },
    ...change,
  };
}

/** The corner with its upper link's inner pivot elsewhere, the link cut to suit. */
export function withUpperIn(at: Point): SceneDocument {
  const corner = storyCorner();
  return { ...corner, points: { ...corner.points, "upper.in": at } };
}
