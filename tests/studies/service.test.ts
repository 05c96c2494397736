// The plug, socket and swing of the first part are those of the project's acceptance stories, worked out apart from this program;
// ±0.3 mm and ±0.02°.
import { describe, expect, it } from "vitest";
import { GapMeter } from "../../src/clearance/gap.ts";
import { TreeShelf } from "../../src/clearance/sweepShelf.ts";
import { composePoses } from "../../src/maths/pose.ts";
import { distance, dot, subtract, type Vec3 } from "../../src/maths/vec3.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import type { ServiceTool } from "../../src/scene/serviceRecords.ts";
import { ServiceCar } from "../../src/studies/service/car.ts";
import { legLength_mm, poseOnLeg } from "../../src/studies/service/legs.ts";
import { type JobReport, tryService } from "../../src/studies/service/service.ts";
import { Sweeps } from "../../src/studies/service/sweeps.ts";
import { toolBody } from "../../src/studies/service/tools.ts";
import { walk } from "../../src/studies/service/walk.ts";
import { waysAround } from "../../src/studies/service/ways.ts";
import { StudyStopped } from "../../src/studies/stopped.ts";
import { storyCorner } from "../check/storyCorner.ts";
import { agreesWithin } from "../truth/agreement.ts";

type Service = NonNullable<SceneDocument["service"]>;
type Job = NonNullable<Service["jobs"]>[number];
type Step = Extract<Job, { kind: "out" }>["steps"][number];

const SOCKET = { id: "socket", kind: "socket", diameter_mm: 26, length_mm: 90 } as const;

function withJobs(service: Service, change: Partial<SceneDocument> = {}): SceneDocument {
  return storyCorner({ tessellation_mm: 0.1, ...change, service });
}

function plugCorner(at: Vec3, tool: NonNullable<Service["tools"]>[number] = SOCKET, removed: string[] = []) {
  return withJobs({
    fasteners: [{ id: "sump plug", on: "powertrain", at, facing: [0, 1, 0], size_mm: 19 }],
    tools: [tool],
    jobs: [{ id: "oil", kind: "reach", fastener: "sump plug", tools: [tool.id], removed }],
  });
}

function jobsOf(document: SceneDocument): readonly JobReport[] {
  return tryService({ document, meshFiles: new Map(), jobs: null }).jobs;
}

function reachOf(document: SceneDocument) {
  const [job] = jobsOf(document);
  if (job?.kind !== "reach") throw new Error("no reach job");
  return { job, tool: job.tools[0]! };
}

function outOf(document: SceneDocument) {
  const [job] = jobsOf(document);
  if (job?.kind !== "out") throw new Error("no job of a part out");
  return { job, states: job.states };
}

describe("the story's sump plug", () => {
  it("cannot be got at with the socket, which overlaps the lower link by 1.6 mm at ride and 0.2 at full droop", () => {
    const { job, tool } = reachOf(plugCorner([-45, 290, 210]));
    const [ride, droop] = tool.states;
    expect(job.fitsAt).toEqual([]);
    expect(Math.abs(ride!.clearance_mm! + 1.6)).toBeLessThanOrEqual(0.3);
    expect(Math.abs(droop!.clearance_mm! + 0.2)).toBeLessThanOrEqual(0.3);
    expect(ride!.near[0]!.part).toBe("lower");
    expect(droop!.travel_mm).toBe(-70);
    expect(tool.fitsTravel_mm).toEqual([]);
  });

  it("has 8.0 mm around the socket 10 mm forward", () => {
    const { job, tool } = reachOf(plugCorner([-35, 290, 210]));
    expect(job.fitsAt).toEqual(["ride", "droop"]);
    expect(Math.abs(tool.states[0]!.clearance_mm! - 8)).toBeLessThanOrEqual(0.3);
    expect(tool.free).toBeNull();
  });

  it("is told the smallest shift, a thinner socket and the link off as what would free it, each of which does", () => {
    const { tool } = reachOf(plugCorner([-45, 290, 210]));
    const { along, freely, takeOff, thinner_mm } = tool.free!;
    expect(along!.way).toEqual([1, 0, 0]);
    expect(Math.abs(along!.mm - 1.7)).toBeLessThanOrEqual(0.3);
    expect(freely!.mm).toBeLessThanOrEqual(along!.mm);
    expect(takeOff).toEqual(["lower"]);
    for (const { way, mm } of [along!, freely!]) {
      const moved = [-45, 290, 210].map((each, k) => each + way[k]! * (mm + 0.05)) as unknown as Vec3;
      expect(reachOf(plugCorner(moved)).job.fitsAt).toEqual(["ride", "droop"]);
    }
    expect(reachOf(plugCorner([-45, 290, 210], { ...SOCKET, diameter_mm: thinner_mm! })).job.fitsAt).toHaveLength(2);
    expect(reachOf(plugCorner([-45, 290, 210], SOCKET, ["lower"])).job.fitsAt).toHaveLength(2);
  });
});

describe("the story's driveshaft", () => {
  const frees = { at: [0, 668, 300] as Vec3, way: [0, 1, 0] as Vec3, mm: 92 };
  const job = (removed: string[]): Job => ({
    id: "shaft out",
    kind: "out",
    parts: ["driveshaft"],
    removed: ["upper", "lower", "damper", "wheel", ...removed],
    steps: [{ kind: "swing", member: "arm", allows_deg: 7, frees }],
  });

  it("needs 12.4° of swing for 92 mm where the bush allows 7°, which gives 52 mm: front bolt out too", () => {
    const [ride] = outOf(withJobs({ jobs: [job([])] })).states;
    const { stop } = ride!.walk;
    if (stop?.kind !== "bush") throw new Error(`stopped by ${stop?.kind}`);
    expect(Math.abs(stop.needs_deg - 12.44)).toBeLessThanOrEqual(0.05);
    expect(Math.abs(stop.frees!.gets_mm - 52.2)).toBeLessThanOrEqual(0.3);
    expect(ride!.free!.boltsOut).toEqual(["arm.at"]);
  });

  it("gets it with that bolt out", () => {
    const { states } = outOf(withJobs({ jobs: [job(["arm.at"])] }));
    expect(states[0]!.fits).toBe(true);
    expect(states[0]!.walk.steps[0]!.got).toBeCloseTo(12.44, 1);
  });

  it("is told what still holds the arm", () => {
    const held = { ...job([]), removed: ["upper", "wheel"] } as Job;
    const { stop } = outOf(withJobs({ jobs: [held] })).states[0]!.walk;
    expect(stop).toMatchObject({ kind: "held", joints: ["lower.outboard", "damper.bottom"] });
  });

  it("takes what the joint's own record allows", () => {
    const own = { ...job([]), steps: [{ kind: "swing", member: "arm", frees }] } as Job;
    const joints = [{ joint: "arm.at", kind: "bush" as const, axis: [0, 1, 0] as Vec3, tilt_deg: 5 }];
    const { stop } = outOf(withJobs({ jobs: [own] }, { joints })).states[0]!.walk;
    expect(stop).toMatchObject({ kind: "bush", allows_deg: 5 });
  });
});

/** A corner whose rail, a box over the driveshaft, is taken out along steps; `blocks` stand on the chassis. */
function railCorner(steps: readonly Step[], blocks: SceneDocument["bodies"] = [], removed: string[] = []) {
  const { bodies } = storyCorner();
  const job: Job = { id: "rail", kind: "out", parts: ["sump-rail"], steps: [...steps], removed };
  return withJobs({ jobs: [job] }, { bodies: [...bodies, ...blocks] });
}

const PEG: SceneDocument["bodies"][number] = {
  id: "peg",
  on: "chassis",
  shape: { kind: "sphere", at: [20, 425, 600], diameter_mm: 20 },
};

describe("a part out along a path", () => {
  it("stops where a ball is met: at a distance known by hand", () => {
    // the rail's top lies at 476, the ball's lowest point at 590
    const { states } = outOf(railCorner([{ kind: "straight", way: [0, 0, 1], length_mm: 300 }], [PEG]));
    const { stop } = states[0]!.walk;
    if (stop?.kind !== "part") throw new Error(`stopped by ${stop?.kind}`);
    expect(stop.part).toBe("peg");
    agreesWithin("pathReach", stop.got, 114, 0.3);
    expect(distance(stop.where, [20, 425, 590])).toBeLessThanOrEqual(1);
  });

  it("is not stopped where the ball leaves it as much room as is drawn", () => {
    const beside = { ...PEG, shape: { ...PEG.shape, at: [131, 425, 600] } } as typeof PEG;
    const { states } = outOf(railCorner([{ kind: "straight", way: [0, 0, 1], length_mm: 300 }], [beside]));
    expect(states[0]!.fits).toBe(true);
    // from the rail's front end, 120, to the ball, 121
    agreesWithin("pathClearance", states[0]!.walk.nearest!.clearance_mm, 1, 0.2);
    expect(states[0]!.walk.nearest!.part).toBe("peg");
  });

  it("does not miss a thin sheet that it goes through within a millimetre of a long way", () => {
    const sheet: typeof PEG = {
      ...PEG,
      id: "sheet",
      shape: { kind: "box", at: [0, 425, 780], size_mm: [400, 90, 0.5] },
    };
    const { stop } = outOf(railCorner([{ kind: "straight", way: [0, 0, 1], length_mm: 1500 }], [sheet])).states[0]!
      .walk;
    if (stop?.kind !== "part") throw new Error(`stopped by ${stop?.kind}`);
    agreesWithin("pathReach", stop.got, 779.75 - 476, 0.2);
  });

  it("goes on where a fitted part slides out of what it is drawn into, and stops where it goes in again", () => {
    const around: typeof PEG = {
      ...PEG,
      id: "holder",
      shape: { kind: "box", at: [20, 425, 455], size_mm: [60, 60, 30] },
    };
    const again: typeof PEG = { ...PEG, id: "post", shape: { kind: "box", at: [20, 425, 560], size_mm: [60, 60, 30] } };
    const up: Step = { kind: "straight", way: [0, 0, 1], length_mm: 60 };
    expect(outOf(railCorner([up], [around])).states[0]!.fits).toBe(true);
    const both = { ...around, shape: { kind: "group", parts: [around.shape, again.shape] } } as typeof PEG;
    const { stop } = outOf(railCorner([{ ...up, length_mm: 200 }], [both])).states[0]!.walk;
    if (stop?.kind !== "part") throw new Error(`stopped by ${stop?.kind}`);
    // the post's underside lies at 545
    expect(Math.abs(stop.got - 69)).toBeLessThanOrEqual(0.8);
  });

  it("proposes ways, parts and nothing that does not work", () => {
    const steps: Step[] = [{ kind: "straight", way: [0, 0, -1], length_mm: 200 }];
    for (const state of outOf(railCorner(steps)).states) {
      expect(state.fits).toBe(false);
      for (const { way, length_mm } of state.free!.ways) {
        const other = outOf(railCorner([{ kind: "straight", way, length_mm }])).states;
        expect(other.find((each) => each.state === state.state)!.fits).toBe(true);
      }
      const off = outOf(railCorner(steps, [], [...state.free!.alsoOff])).states;
      expect(off.find((each) => each.state === state.state)!.fits).toBe(true);
    }
  });

  it("finds every straight way out of a box without a lid: up alone of the six", () => {
    const wall = (id: string, at: Vec3, size_mm: Vec3): typeof PEG => ({
      ...PEG,
      id,
      shape: { kind: "box", at, size_mm },
    });
    const walls = [
      wall("floor", [20, 425, 440], [260, 120, 10]),
      wall("front", [145, 425, 500], [10, 120, 120]),
      wall("back", [-105, 425, 500], [10, 120, 120]),
      wall("outer", [20, 480, 500], [260, 10, 120]),
      wall("inner", [20, 370, 500], [260, 10, 120]),
    ];
    const gone = ["upper", "lower", "driveshaft", "damper", "wheel"];
    const { ways } = outOf(railCorner([], walls, gone)).states[0]!.free!;
    const straight = ways.filter(({ way }) => way.filter((share) => share !== 0).length === 1);
    expect(straight.map(({ way }) => way)).toEqual([[0, 0, 1]]);
  });
});

describe("the sweep of a path", () => {
  // mulberry32, so that a failure can be run again
  const draws = (seed: number) => () => {
    seed = (seed + 0x6d2b79f5) | 0;
    let t = Math.imul(seed ^ (seed >>> 15), 1 | seed);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };

  it.each([1, 2, 3, 4, 5, 6])("agrees with states sampled every 0.25 mm, seed %i", (seed) => {
    const draw = draws(seed);
    const direction = (): Vec3 => [draw() - 0.5, draw() - 0.5, draw() - 0.5];
    const blocks = [0, 1, 2, 3].map((i): typeof PEG => ({
      ...PEG,
      id: `block-${i}`,
      shape: {
        kind: "box",
        at: [20 + 300 * (draw() - 0.5), 425 + 300 * (draw() - 0.5), 560 + 120 * draw()],
        size_mm: [20 + 60 * draw(), 20 + 60 * draw(), 10 + 30 * draw()],
        turn_deg: [90 * draw(), 90 * draw(), 90 * draw()],
      },
    }));
    const step: Step =
      seed % 2 === 0
        ? { kind: "turn", about: [20, 425, 300], axis: direction(), angle_deg: 120 * (draw() - 0.5) }
        : { kind: "straight", way: [draw() - 0.5, draw() - 0.5, 1], length_mm: 250 };
    const document = railCorner([step], blocks, ["upper", "lower", "driveshaft", "damper", "wheel"]);
    const scene = resolveScene(document);
    const car = new ServiceCar(scene, new Map());
    const [job] = scene.service.jobs;
    if (job?.kind !== "out") throw new Error("no job");
    const start = {
      car,
      side: "left",
      travel_mm: 0,
      parts: job.parts,
      removed: job.removed,
      isMirrored: false,
    } as const;
    const { steps, stop } = walk(start, job.steps, new Sweeps(() => false));

    const { leg } = steps[0]!;
    const length_mm = legLength_mm(leg);
    const meter = new GapMeter(new TreeShelf());
    const rail = car.bodies.find(({ id }) => id === "sump-rail")!;
    const others = car.bodies.filter(({ id }) => id.startsWith("block-"));
    const pose = car.poseOf(rail, 0);
    const overlaps = (at_mm: number): boolean => {
      const there = composePoses(poseOnLeg(leg, at_mm), pose);
      return others.some((other) => meter.measure(rail, there, other, car.poseOf(other, 0)).clearance_mm < 0);
    };
    const STEP_mm = 0.25;
    let first_mm: number | null = null;
    for (let at = 0; at <= length_mm && first_mm === null; at += STEP_mm) if (overlaps(at)) first_mm = at;
    const got_mm =
      stop?.kind === "part"
        ? leg.kind === "straight"
          ? stop.got
          : (stop.got / Math.abs(leg.angle_deg)) * length_mm
        : null;
    if (first_mm === null) {
      // samples may jump over what the sweep sees, not the other way round
      if (got_mm !== null) expect(overlaps(got_mm + 0.06)).toBe(true);
    } else {
      expect(got_mm).not.toBeNull();
      expect(got_mm!).toBeLessThanOrEqual(first_mm + 1e-6);
      expect(got_mm!).toBeGreaterThanOrEqual(first_mm - STEP_mm - 0.06);
    }
  });

  it("tells a spanner's free swing as handles tried every degree do", () => {
    const spanner = { id: "ring", kind: "spanner", length_mm: 110, width_mm: 24, thickness_mm: 10 } as const;
    const document = plugCorner([-20, 300, 260], spanner);
    const { tool } = reachOf(document);
    const { swing } = tool.states[0]!;
    const scene = resolveScene(document);
    const car = new ServiceCar(scene, new Map());
    const [fastener] = scene.service.fasteners;
    const body = toolBody(scene, fastener!, scene.service.tools[0]! as ServiceTool, "left");
    const meter = new GapMeter(new TreeShelf());
    const isFree = (deg: number): boolean => {
      const leg = { kind: "turn", about: fastener!.at, axis: fastener!.facing, angle_deg: deg, reach_mm: 1 } as const;
      const pose = poseOnLeg(leg, legLength_mm(leg));
      return car.bodies.every((other) => meter.measure(body, pose, other, car.poseOf(other, 0)).clearance_mm >= 0);
    };
    const free = Array.from({ length: 360 }, (_, deg) => isFree(deg));
    // the longest run of free degrees, round and round
    let [run, longest] = [0, 0];
    for (let i = 0; i < 720; i++) {
      run = free[i % 360] ? run + 1 : 0;
      longest = Math.max(longest, Math.min(run, 360));
    }
    expect(longest).toBeGreaterThan(10);
    expect(longest).toBeLessThan(360);
    agreesWithin("toolSwing", swing!.widest_deg, longest, 1);
    expect(Math.abs(dot(swing!.handle, fastener!.facing))).toBeLessThan(1e-9);
  });
});

describe("what holds for every service job", () => {
  it("a smaller tool never fits worse", () => {
    for (const z of [205, 225, 240]) {
      let last = Number.NEGATIVE_INFINITY;
      for (const diameter_mm of [40, 30, 20, 10]) {
        const { tool } = reachOf(plugCorner([-50, 290, z], { ...SOCKET, diameter_mm }));
        const clearance_mm = tool.states[0]!.clearance_mm ?? Number.POSITIVE_INFINITY;
        expect(clearance_mm).toBeGreaterThanOrEqual(last - 0.2);
        last = clearance_mm;
      }
    }
  });

  it("a part off never hinders: it gets as far or farther", () => {
    const step: Step = { kind: "straight", way: [0, 0.2, -1], length_mm: 300 };
    const got = (removed: string[]) =>
      outOf(railCorner([step], [], removed)).states.map(({ walk: gone }) => gone.steps[0]!.got);
    const before = got([]);
    for (const part of ["upper", "lower", "driveshaft", "wheel"]) {
      got([part]).forEach((mm, i) => {
        expect(mm).toBeGreaterThanOrEqual(before[i]! - 0.06);
      });
    }
  });

  it("is the same in the mirror on the other side", () => {
    const document = withJobs(
      {
        fasteners: [{ id: "nut", on: "lower", at: [-70, 400, 218], facing: [0.2, 0, 1] }],
        tools: [{ ...SOCKET, length_mm: 250 }],
        jobs: [
          { id: "nut", kind: "reach", fastener: "nut", tools: ["socket"] },
          {
            id: "shaft",
            kind: "out",
            parts: ["driveshaft"],
            steps: [{ kind: "straight", way: [0.3, 1, 0.1], length_mm: 150 }],
          },
        ],
      },
      { sides: "both", bodies: [] },
    );
    const reports = jobsOf(document);
    const told = (job: string, side: string) => {
      const { side: _, ...rest } = reports.find((each) => each.job === job && each.side === side)!;
      return rest;
    };
    for (const [job, digits] of [
      ["nut", 2],
      ["shaft", 1],
    ] as const) {
      const [left, right] = [told(job, "left"), told(job, "right")];
      expect(right.fitsAt).toEqual(left.fitsAt);
      if (left.kind === "reach" && right.kind === "reach") {
        left.tools[0]!.states.forEach(({ clearance_mm }, i) => {
          expect(right.tools[0]!.states[i]!.clearance_mm!).toBeCloseTo(clearance_mm!, digits);
        });
      }
      if (left.kind === "out" && right.kind === "out") {
        left.states.forEach(({ walk: gone }, i) => {
          expect(right.states[i]!.walk.steps[0]!.got).toBeCloseTo(gone.steps[0]!.got, digits);
        });
      }
    }
  });

  it("is the same wherever the datum lies fore and aft", () => {
    const forward = (by: number): SceneDocument => {
      const document = railCorner([{ kind: "straight", way: [0.1, 0.2, -1], length_mm: 200 }]);
      const moved = (value: unknown): unknown => {
        if (!Array.isArray(value)) return value;
        return [(value[0] as number) + by, value[1], value[2]];
      };
      const points = Object.fromEntries(Object.entries(document.points).map(([name, at]) => [name, moved(at)]));
      const places = (record: object, keys: readonly string[]) =>
        Object.fromEntries(
          Object.entries(record).map(([key, value]) => [key, keys.includes(key) ? moved(value) : value]),
        );
      return {
        ...document,
        points,
        wheel: places(document.wheel, ["centre"]),
        damper: places(document.damper!, ["top", "bottom"]),
        driveshaft: places(document.driveshaft!, ["inner", "outer"]),
        powertrain: { poses: document.powertrain!.poses!.map((pose) => places(pose, ["about"])) },
        bodies: document.bodies.map((body) => ({ ...body, shape: places(body.shape, ["at"]) })),
      } as unknown as SceneDocument;
    };
    const [here, there] = [outOf(forward(0)), outOf(forward(137))];
    here.states.forEach(({ walk: gone }, i) => {
      expect(there.states[i]!.walk.steps[0]!.got).toBeCloseTo(gone.steps[0]!.got, 1);
      expect(there.states[i]!.free!.alsoOff).toEqual(here.states[i]!.free!.alsoOff);
    });
  });

  it("is the same each time it is asked, tells its progress, and ends when stopped", () => {
    const document = railCorner([{ kind: "straight", way: [0, 0, -1], length_mm: 100 }]);
    const done: [number, number][] = [];
    const first = tryService({ document, meshFiles: new Map(), jobs: ["rail"] }, (...told) => done.push(told));
    expect(tryService({ document, meshFiles: new Map(), jobs: null })).toEqual(first);
    expect(done).toEqual([
      [0, 1],
      [1, 1],
    ]);
    let asked = 0;
    expect(() => tryService({ document, meshFiles: new Map(), jobs: null }, undefined, () => ++asked > 3)).toThrow(
      StudyStopped,
    );
    expect(() => tryService({ document, meshFiles: new Map(), jobs: ["none"] })).toThrow(/no job "none".*rail/s);
  });

  it("tries ways around one from the nearest on", () => {
    const ways = waysAround([0, 0, 1]);
    const off = ways.map((way) => dot(way, [0, 0, 1]));
    expect(off).toEqual([...off].sort((a, b) => b - a));
    for (const way of ways) expect(Math.abs(Math.hypot(...way) - 1)).toBeLessThan(1e-9);
    expect(Math.hypot(...subtract(ways[0]!, [0, 0, 1]))).toBeLessThan(0.1);
  });
});
