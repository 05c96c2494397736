import { describe, expect, it } from "vitest";
import { drawnPart } from "../../src/scene/aside.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { removePart } from "../../src/scene/parts/remove.ts";
import { renamePart } from "../../src/scene/parts/rename.ts";
import { ridesOfPoints } from "../../src/scene/pointRide.ts";
import { usesByName } from "../../src/scene/pointUses.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { withJob, withoutJob, withService } from "../../src/scene/serviceEdits.ts";
import { storyCorner } from "../check/storyCorner.ts";

type Service = NonNullable<SceneDocument["service"]>;

const bare = storyCorner();
const service: Service = {
  fasteners: [
    { id: "plug", on: "sump-rail", at: { from: "upper.in", by: [0, 0, -40] }, facing: [0, 2, 0] },
    { id: "nut", on: "upper", at: "upper.out", facing: [0, 0, 1], size_mm: 18 },
  ],
  tools: [
    { id: "socket", kind: "socket", diameter_mm: 26, length_mm: 90 },
    { id: "ring", kind: "spanner", length_mm: 200, width_mm: 30, thickness_mm: 10 },
  ],
  jobs: [
    {
      id: "oil",
      kind: "reach",
      fastener: "plug",
      tools: ["socket", "ring"],
      removed: ["upper", "lower.inboard", "wheel"],
    },
    {
      id: "shaft",
      kind: "out",
      parts: ["driveshaft", "upper"],
      steps: [
        { kind: "swing", member: "arm", angle_deg: 5 },
        { kind: "turn", about: "upper.in", axis: [0, 0, 3], angle_deg: -20 },
      ],
    },
  ],
};
const full = withService(bare, service);

describe("service records", () => {
  it("are set aside: what is drawn and checked is the same object", () => {
    expect(drawnPart(full)).toBe(bare);
    expect(withService(full, { jobs: [], fasteners: [], tools: [] })).toBe(bare);
  });

  it("are resolved with their points, unit directions and usual values", () => {
    const { fasteners, tools, jobs } = resolveScene(full).service;
    expect(fasteners[0]).toMatchObject({
      mount: "powertrain",
      part: "sump-rail",
      at: [-20, 410, 385],
      facing: [0, 1, 0],
    });
    expect(fasteners[1]).toMatchObject({ mount: "upper", part: "upper", isMirrored: true, size_mm: 18 });
    expect(tools[1]).toMatchObject({ swing_deg: 30, off_mm: 0 });
    expect(jobs[1]).toMatchObject({
      steps: [
        { kind: "swing", about: [430, 640, 330], axis: [0, 0, 1], joint: "arm.at", allows_deg: null },
        { kind: "turn", about: [-20, 410, 425], axis: [0, 0, 1] },
      ],
    });
    expect(resolveScene(bare).service).toEqual({ fasteners: [], tools: [], jobs: [] });
  });

  it("use the points that they hang on without giving them a ride", () => {
    expect(
      usesByName(full)
        .get("upper.in")!
        .some(({ path }) => path === "service.fasteners[0].at"),
    ).toBe(true);
    expect(ridesOfPoints(full)).toEqual(ridesOfPoints(bare));
  });

  it("follow a part under another id", () => {
    const renamed = renamePart(full, "upper", "top link").service!;
    expect(renamed.fasteners![1]!.on).toBe("top link");
    expect(renamed.jobs).toMatchObject([
      { removed: ["top link", "lower.inboard", "wheel"] },
      { parts: ["driveshaft", "top link"] },
    ]);
  });

  it("go with the part that they need", () => {
    const without = removePart(full, "sump-rail").service!;
    expect(without.fasteners!.map(({ id }) => id)).toEqual(["nut"]);
    expect(without.jobs!.map(({ id }) => id)).toEqual(["shaft"]);
    const shaftless = removePart(full, "driveshaft").service!;
    expect(shaftless.jobs).toMatchObject([{ id: "oil" }, { id: "shaft", parts: ["upper"] }]);
  });

  it.each([
    [{ fasteners: [{ ...service.fasteners![0]!, on: "sump" }] }, /service\.fasteners\[0\]\.on.*"sump".*sump-rail/s],
    [{ fasteners: [{ ...service.fasteners![0]!, facing: [0, 0, 0] }] }, /service\.fasteners\[0\]\.facing.*no length/s],
    [{ fasteners: [service.fasteners![0]!, service.fasteners![0]!] }, /service\.fasteners\[1\]\.id.*another fastener/s],
    [{ tools: [service.tools![0]!] }, /service\.jobs\[0\]\.tools\[1\].*"ring"/s],
    [{ jobs: [{ ...service.jobs![0]!, side: "right" }] }, /service\.jobs\[0\]\.side.*no right side/s],
    [{ jobs: [{ ...service.jobs![0]!, removed: ["lower.inbord"] }] }, /removed\[0\].*lower\.inboard\?/s],
    [
      { jobs: [{ id: "x", kind: "out", parts: ["wheel"], steps: [{ kind: "swing", member: "arm" }] }] },
      /neither an angle/,
    ],
    [{ jobs: [{ id: "x", kind: "out", parts: ["gone"], steps: [] }] }, /service\.jobs\[0\]\.parts\[0\].*"gone"/s],
  ] as readonly [Partial<Service>, RegExp][])("refuses %j", (records, message) => {
    expect(() => withService(full, records)).toThrow(message);
  });
});

describe("edits of service jobs", () => {
  const job = service.jobs![0]!;

  it("put a job in the place of the one before, and take away what only that used", () => {
    const changed = withJob(full, "oil", {
      job: { id: "oil change", kind: "reach", fastener: "oil change", tools: ["long"] },
      fastener: { ...service.fasteners![0]!, id: "oil change" },
      tools: [{ id: "long", kind: "socket", diameter_mm: 26, length_mm: 150 }],
    }).service!;
    expect(changed.jobs!.map(({ id }) => id)).toEqual(["oil change", "shaft"]);
    expect(changed.fasteners!.map(({ id }) => id)).toEqual(["nut", "oil change"]);
    expect(changed.tools!.map(({ id }) => id)).toEqual(["long"]);
  });

  it("leave what another job uses", () => {
    const two = withService(full, { jobs: [...service.jobs!, { ...job, id: "again" } as typeof job] });
    const one = withoutJob(two, "oil").service!;
    expect(one.tools).toEqual(service.tools);
    expect(one.fasteners).toEqual(service.fasteners);
    expect(withoutJob(withoutJob(two, "oil"), "again").service!.tools).toBeUndefined();
  });

  it("add a job, and refuse one that could not be opened again", () => {
    const out = { id: "rail", kind: "out" as const, parts: ["sump-rail"], steps: [] };
    expect(withJob(bare, null, { job: out }).service).toEqual({ jobs: [out] });
    expect(() => withJob(full, null, { job: { ...out, id: "oil" } })).toThrow(/another job has the id "oil"/);
  });
});
