import { describe, expect, it } from "vitest";
import { distance, dot, normalise, type Vec3 } from "../../src/maths/vec3.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { type JobReport, tryService } from "../../src/studies/service/service.ts";
import { smallScene } from "../app/smallScene.ts";
import { agrees, agreesEach, agreesOn, agreesWithin } from "./agreement.ts";
import { PIVOT, rootBetween, swung, WHEEL } from "./arms.ts";

const RAD = Math.PI / 180;
type Service = NonNullable<SceneDocument["service"]>;
type Job = NonNullable<Service["jobs"]>[number];
type Body = SceneDocument["bodies"][number];
type Tool = NonNullable<Service["tools"]>[number];

/** A trailing arm that is not drawn; parts and tools stand free of it. */
function corner(service: Service, bodies: SceneDocument["bodies"], more: Partial<SceneDocument> = {}): SceneDocument {
  return smallScene({
    sides: "left",
    members: [{ id: "swing", kind: "hinge", front: PIVOT, rear: [450, 300, 300], body: null }],
    wheel: WHEEL,
    travel: { bump_mm: 60, droop_mm: 60, step_mm: 5 },
    powertrain: { poses: [] },
    tessellation_mm: 0.02,
    bodies,
    service,
    ...more,
  });
}

const jobOf = (document: SceneDocument): JobReport =>
  tryService({ document, meshFiles: new Map(), jobs: null }).jobs[0]!;

function reach(tool: Tool, bodies: Body[], at: Vec3) {
  const fasteners = [{ id: "bolt", on: "chassis", at, facing: [0, 1, 0] as Vec3, size_mm: 17 }];
  const jobs: Job[] = [{ id: "bolt off", kind: "reach", fastener: "bolt", tools: [tool.id], removed: [] }];
  const job = jobOf(corner({ fasteners, tools: [tool], jobs }, bodies));
  if (job.kind !== "reach") throw new Error("no reach job");
  return job.tools[0]!;
}

function out(steps: Extract<Job, { kind: "out" }>["steps"], bodies: Body[], more: Partial<SceneDocument> = {}) {
  const jobs: Job[] = [{ id: "out", kind: "out", parts: ["box"], removed: ["wheel"], steps }];
  const job = jobOf(corner({ jobs }, bodies, more));
  if (job.kind !== "out") throw new Error("no job of a part out");
  return job.states[0]!;
}

const ball = (id: string, on: string, at: Vec3, diameter_mm: number): Body =>
  ({ id, on, shape: { kind: "sphere", at, diameter_mm } }) as const;
const box = (at: Vec3, size_mm: Vec3, id = "box"): Body =>
  ({ id, on: "chassis", shape: { kind: "box", at, size_mm } }) as const;

describe("a socket of Ø 26 and 90 mm on a bolt that faces outward (distances by hand)", () => {
  const SOCKET = { id: "socket", kind: "socket", diameter_mm: 26, length_mm: 90 } as const;
  const BOLT: Vec3 = [0, 300, 900];

  it("is as far from a ball over it as that stands off its axis, less both radii, at the places between", () => {
    const { states } = reach(SOCKET, [ball("ball", "chassis", [0, 345, 900 + 13 + 20 + 5], 40)], BOLT);
    const [near] = states[0]!.near;
    agreesWithin("nearTool", states[0]!.clearance_mm, 5, 0.1);
    agreesWithin("nearTool", near!.clearance_mm, 5, 0.1);
    // on the line from the axis to the ball's middle
    agreesWithin("nearPlace", Math.hypot(near!.where[0], near!.where[1] - 345), 0, 1);
    expect(near!.where[2]).toBeGreaterThan(912);
    expect(near!.where[2]).toBeLessThan(919);
  });

  it("is freed by as much as a ball stands into it: shifted by that, or so much thinner at either side", () => {
    const { free } = reach(SOCKET, [ball("ball", "chassis", [0, 345, 900 + 13 + 20 - 3], 40)], BOLT);
    agreesWithin("toolShift", free!.along!.mm, 3, 0.15);
    for (const [k, part] of [0, 0, -1].entries()) agrees("toolShift", free!.along!.way[k], part, 9);
    agreesWithin("toolShift", free!.freely!.mm, 3, 0.15);
    agreesWithin("smallerTool", free!.thinner_mm, 20, 0.3);
  });

  it("is freed by being shorter where a ball stands on its axis, 80 mm off", () => {
    const { free } = reach(SOCKET, [ball("ball", "chassis", [0, 380, 900], 20)], BOLT);
    agreesWithin("smallerTool", free!.shorter_mm, 70, 0.3);
  });

  it("fits as long as a ball on a trailing arm has not risen to it (closed form)", () => {
    const at: Vec3 = [-40, 345, 420];
    const gap = (travel_mm: number) => {
      const [x, , z] = swung(at, travel_mm);
      return Math.hypot(x + 40, z - 495) - 13 - 20;
    };
    const touches = rootBetween(0, 60, gap);
    const { fitsTravel_mm } = reach(SOCKET, [ball("ball", "carrier", at, 40)], [-40, 300, 495]);
    expect(fitsTravel_mm).toHaveLength(1);
    agreesWithin("fitsTravel", fitsTravel_mm![0]![0], -60, 1e-6);
    agreesWithin("fitsTravel", fitsTravel_mm![0]![1], touches, 0.3);
  });
});

describe("a spanner beside a wall that stands upright before the bolt (closed form)", () => {
  it("swings to the wall either way, its handle in the middle straight away from it", () => {
    const spanner = { id: "ring", kind: "spanner", length_mm: 110, width_mm: 24, thickness_mm: 10 } as const;
    // the bolt at 0/300/900; a wall from 60 forward of it, high and broad
    const { states } = reach(spanner, [box([60 + 100, 300, 900], [200, 400, 600], "wall")], [0, 300, 900]);
    const swing = states[0]!.swing!;
    // a corner of its end is at 110 along and 12 across: it comes to 60 forward where 110·cos θ + 12·sin θ = 60
    const blocked = rootBetween(0, Math.PI, (angle) => 110 * Math.cos(angle) + 12 * Math.sin(angle) - 60) / RAD;
    agreesWithin("spannerSwing", swing.widest_deg, 360 - 2 * blocked, 0.6);
    agreesWithin("spannerSwing", (((swing.to_deg - swing.from_deg) % 360) + 360) % 360, 360 - 2 * blocked, 0.6);
    // from upright, right hand about outward: forward lies at 90°, the wall's middle
    const middle = ((((swing.from_deg + swing.to_deg) / 2 - 90) % 360) + 360) % 360;
    agreesWithin("spannerSwing", middle, 180, 0.6);
    for (const [k, part] of [-1, 0, 0].entries()) agreesWithin("spannerHandle", swing.handle[k], part, 0.01);
    // what a ring of twelve points needs to be put on anew
    agreesOn("spannerNeeds", swing.needs_deg, 360 / 12);
  });
});

describe("a box of 40 mm taken out (distances by hand)", () => {
  const BOX = box([0, 640, 700], [40, 40, 40]);

  it("goes all the way where nothing is", () => {
    const { walk } = out([{ kind: "straight", way: [0, 0, 1], length_mm: 250 }], [BOX]);
    expect(walk.stop).toBeNull();
    agrees("stepsGone", walk.steps[0]!.got, 250, 9);
  });

  it("stops at a ball under it: how far it got, where that is, and the ways beside", () => {
    const { walk, free } = out(
      [{ kind: "straight", way: [0, 0, -1], length_mm: 200 }],
      [BOX, ball("ball", "chassis", [0, 640, 600], 40)],
    );
    const { stop } = walk;
    if (stop?.kind !== "part") throw new Error(`stopped by ${stop?.kind}`);
    // its underside at 680, the ball's top at 620
    agreesWithin("touched", stop.got, 60, 0.15);
    agreesWithin("touched", walk.steps[0]!.got, 60, 0.15);
    agreesWithin("touchedAt", distance(stop.where, [0, 640, 620]), 0, 1);
    expect(free!.ways.length).toBeGreaterThan(0);
    for (const { way, off_deg, length_mm } of free!.ways) {
      agrees("freeWays", off_deg, Math.acos(dot(normalise(way), [0, 0, -1])) / RAD, 6);
      agrees("freeWays", length_mm, 200, 9);
      agrees("freeWays", Math.hypot(...way), 1, 9);
    }
  });

  it("passes a ball at the distance that it leaves", () => {
    // its side at 20, the ball's nearest place at 22
    const { walk } = out(
      [{ kind: "straight", way: [0, 0, -1], length_mm: 150 }],
      [BOX, ball("ball", "chassis", [42, 640, 600], 40)],
    );
    agreesWithin("passed", walk.nearest!.clearance_mm, 2, 0.1);
  });

  it("is let by where the arm swings aside a ball that it carries: sin θ = 40/430", () => {
    const more: Partial<SceneDocument> = {
      members: [
        { id: "arm", kind: "ball", at: [430, 640, 330], body: null },
        { id: "upper", kind: "link", inboard: [-20, 100, 425], outboard: [-20, 300, 430], body: null },
        { id: "lower", kind: "link", inboard: [-70, 100, 200], outboard: [-70, 300, 205], body: null },
      ],
    };
    const bodies = [BOX, ball("ball", "carrier", [0, 640, 600], 40)];
    const jobs: Job[] = [
      {
        id: "out",
        kind: "out",
        parts: ["box"],
        removed: ["wheel", "upper", "lower"],
        steps: [{ kind: "straight", way: [0, 0, -1], length_mm: 150 }],
      },
    ];
    const job = jobOf(corner({ jobs }, bodies, more));
    if (job.kind !== "out") throw new Error("no job of a part out");
    agreesWithin("swingsAside", Math.abs(job.states[0]!.free!.swing!.angle_deg), Math.asin(40 / 430) / RAD, 0.15);
  });
});

describe("an arm on a ball joint that must swing until a place has come out so far (closed form)", () => {
  // about the upright through its joint: (28 along, 430 behind) from it
  const [ALONG, BEHIND] = [28, 430];
  const frees = (mm: number) => ({ at: [0, 668, 300] as Vec3, way: [0, 1, 0] as Vec3, mm });
  const stopOf = (mm: number, allows_deg: number) => {
    const document = corner(
      {
        jobs: [
          {
            id: "out",
            kind: "out",
            parts: ["box"],
            removed: ["wheel", "upper", "lower"],
            steps: [{ kind: "swing", member: "arm", allows_deg, frees: frees(mm) }],
          },
        ],
      },
      [box([0, 300, 900], [40, 40, 40])],
      {
        members: [
          { id: "arm", kind: "ball", at: [430, 640, 300], body: null },
          { id: "upper", kind: "link", inboard: [-20, 410, 425], outboard: [-20, 650, 430], body: null },
          { id: "lower", kind: "link", inboard: [-70, 260, 200], outboard: [-70, 660, 205], body: null },
        ],
      },
    );
    const job = jobOf(document);
    if (job.kind !== "out") throw new Error("no job of a part out");
    return job.states[0]!.walk.stop;
  };
  const gone = (deg: number) => ALONG * Math.cos(deg * RAD) + BEHIND * Math.sin(deg * RAD) - ALONG;

  it("needs the angle at which it has, and gets what its bush allows", () => {
    const stop = stopOf(92, 7);
    if (stop?.kind !== "bush") throw new Error(`stopped by ${stop?.kind}`);
    agreesWithin(
      "swingBush",
      stop.needs_deg,
      rootBetween(0, 30, (deg) => gone(deg) - 92),
      0.01,
    );
    agreesEach("swingGets", stop.frees!, { gets_mm: gone(7), needs_mm: 92 }, 1e-6);
  });

  it("says how far it comes at most where that is not enough", () => {
    const stop = stopOf(500, 90);
    if (stop?.kind !== "unreachable") throw new Error(`stopped by ${stop?.kind}`);
    // looked for by whole degrees
    agreesEach("swingMost", stop, { most_mm: Math.hypot(ALONG, BEHIND) - ALONG, needs_mm: 500 }, 0.02);
  });
});
