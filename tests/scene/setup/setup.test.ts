import { describe, expect, it } from "vitest";
import { compileCorner } from "../../../src/kinematics/corner.ts";
import { runTravel } from "../../../src/kinematics/travel.ts";
import { removePart } from "../../../src/scene/parts/remove.ts";
import { readScene } from "../../../src/scene/read.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import type { SetupFault } from "../../../src/scene/setup/faults.ts";
import { ASSUMED } from "../../../src/scene/setup/places.ts";
import {
  answer,
  askedQuestions,
  assume,
  beginSetup,
  blankCorner,
  firstOpen,
  questionsOf,
  standingOf,
  stillMissing,
  withPointMeasured,
  withSetupClosed,
} from "../../../src/scene/setup/setup.ts";
import { CORNER_KINDS } from "../../../src/scene/setup/setupDocument.ts";
import { sceneFile } from "../../scenes/files.ts";
import { answeredAs, FILE_OF, placesOf } from "./answers.ts";

const questionOf = (kind: (typeof CORNER_KINDS)[number], id: string) =>
  questionsOf(kind).find((question) => question.id === id)!;

describe.each(CORNER_KINDS)("a %s corner, every question answered from the sample scene", (kind) => {
  const { document: file, scene } = sceneFile(FILE_OF[kind]);
  const made = answeredAs(kind, file);

  it("is a scene that reads and resolves", () => {
    expect(() => resolveScene(readScene(JSON.stringify(made), "made.json"))).not.toThrow();
  });

  it("has the file's hard points, wheel, travel, damper, bar, shaft and rock", () => {
    expect(placesOf(made)).toMatchObject(placesOf(file));
    expect(made.wheel).toEqual(file.wheel);
    expect(made.travel).toEqual(file.travel);
    // the set-up asks for no spring's or bar's own length
    const { springFree_mm: _free, springSolid_mm: _solid, ...damper } = file.damper!;
    const { bar_mm: _bar, right, ...driveshaft } = file.driveshaft!;
    const { bar_mm: _rightBar, ...rightShaft } = right!;
    expect(made.damper).toEqual(damper);
    expect(made.antiRollBar).toEqual(file.antiRollBar);
    expect(made.driveshaft).toEqual({ ...driveshaft, right: rightShaft });
    const ours = resolveScene(made);
    expect(ours.powertrain.poses).toEqual(scene.powertrain.poses);
    expect(made.sides).toBe(file.sides);
  });

  it("moves as the file's corner does", () => {
    for (const side of scene.sides) {
      const range = { bump_mm: 70, droop_mm: 60, step_mm: 10 };
      const ours = runTravel(compileCorner(resolveScene(made), side), range);
      const theirs = runTravel(compileCorner(scene, side), range);
      expect(ours.bindsAt_mm).toBeNull();
      expect([...ours.carrier]).toEqual([...theirs.carrier]);
    }
  });

  it("has nothing that is still assumed", () => {
    expect(askedQuestions(made).map((question) => standingOf(made, question))).not.toContain("assumed");
    expect(JSON.stringify(made.points)).not.toContain(ASSUMED);
    expect(stillMissing(made)).toEqual([]);
  });
});

describe("the order of the questions", () => {
  // the order in which a builder can reach things: tyre and wheel, centre, members, powertrain, frame, damper, shaft
  it.each(CORNER_KINDS)("of a %s corner goes from the wheel inwards", (kind) => {
    const questions = questionsOf(kind);
    const first = (wanted: string) => questions.findIndex(({ section }) => section === wanted);
    const found = ["wheel", "members", "powertrain", "frame", "damper", "shaft"].map(first);
    expect(found).toEqual([...found].sort((a, b) => a - b));
    expect(Math.min(...found)).toBeGreaterThan(0);
    const centre = questions.findIndex(({ id }) => id === "wheel.centre");
    expect(centre).toBeGreaterThan(questions.findIndex(({ id }) => id === "wheel.tyre"));
    expect(centre).toBeLessThan(first("members"));
  });

  it.each(CORNER_KINDS)("of a %s corner has a picture for each", (kind) => {
    for (const { id, picture } of questionsOf(kind)) expect(picture.of, id).toBeTruthy();
  });
});

describe.each(CORNER_KINDS)("a %s corner of which nothing is measured", (kind) => {
  const blank = blankCorner(kind);

  it("reads, and runs through its whole travel", () => {
    const scene = resolveScene(readScene(JSON.stringify(blank), "blank.json"));
    const { bump_mm, droop_mm } = blank.travel;
    const run = runTravel(compileCorner(scene, "left"), { bump_mm, droop_mm, step_mm: 5 });
    expect(run.bindsAt_mm).toBeNull();
  });

  it("lists every question as assumed and marks every point so", () => {
    expect(firstOpen(blank)).toBeNull();
    for (const question of askedQuestions(blank)) expect(standingOf(blank, question)).toBe("assumed");
    for (const entry of Object.values(blank.points)) expect(entry).toMatchObject({ how: ASSUMED });
  });

  it("takes the assumed value of every question as an answer that can be", () => {
    for (const question of askedQuestions(blank)) {
      const fault = question.fault as (value: unknown, document: typeof blank) => SetupFault | null;
      expect(fault(question.read(blank) ?? question.usual(blank), blank), question.id).toBeNull();
    }
  });

  it("asks each thing once", () => {
    const ids = questionsOf(kind).map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });
});

describe("as answers come in", () => {
  it("members are drawn once all their points are known, measured or assumed", () => {
    let document = beginSetup("hub-and-arm");
    const upper = () => document.members.find(({ id }) => id === "upper")!;
    expect(document.members.map(({ body }) => body)).toEqual([null, null, null]);
    document = answer(document, "upper.in", [58, 318, 412]);
    expect(upper().body).toBeNull();
    document = assume(document, "upper.out");
    expect(upper()).not.toHaveProperty("body");
    document = answer(document, "arm.front", [475, 590, 200]);
    expect(document.members[0]!.body).toMatchObject({ kind: "capsule", from: "arm.front", to: "wheel.centre" });
    document = answer(document, "arm.tube", 52);
    expect(document.members[0]!.body).toMatchObject({ diameter_mm: 52 });
  });

  it("what is open follows the wheel; what was answered or skipped stays", () => {
    let document = answer(beginSetup("hub-and-arm"), "upper.in", [58, 318, 412]);
    document = assume(document, "lower.in");
    const before = placesOf(document);
    document = answer(document, "wheel.centre", [0, 760, 300]);
    expect(placesOf(document)["upper.in"]).toEqual([58, 318, 412]);
    expect(placesOf(document)["lower.in"]).toEqual(before["lower.in"]);
    const [x, y, z] = before["upper.out"] as [number, number, number];
    expect(placesOf(document)["upper.out"]).toEqual([x, y + 20, z - 5]);
  });

  it("an assumed point that the builder moved by hand is left where it is", () => {
    const begun = beginSetup("strut");
    const moved = { ...begun, points: { ...begun.points, "toe.in": [-170, 380, 205] as const } };
    expect(answer(moved, "wheel.centre", [0, 750, 300]).points["toe.in"]).toEqual([-170, 380, 205]);
  });

  it("says what is missing until the wheel's way can be worked out", () => {
    let document = beginSetup("semi-trailing");
    expect(stillMissing(document).map(({ id }) => id)).toContain("arm.outer");
    for (const { id } of stillMissing(document)) document = assume(document, id);
    expect(stillMissing(document)).toEqual([]);
    expect(firstOpen(document)?.id).toBe("title");
  });

  it("an answer can be changed later, and only it changes", () => {
    const { document: file } = sceneFile("1-");
    const made = answeredAs("hub-and-arm", file);
    const changed = answer(made, "upper.in", [58, 440, 416]);
    expect(placesOf(changed)).toEqual({ ...placesOf(made), "upper.in": [58, 440, 416] });
    expect(changed.damper).toBe(made.damper);
    expect(changed.bodies).toEqual(made.bodies);
  });

  it("taking a damper out again asks nothing more of it and takes its points along", () => {
    let document = answer(beginSetup("hub-and-arm"), "damper.there", "yes");
    expect(askedQuestions(document).some(({ id }) => id === "damper.open_mm")).toBe(true);
    document = answer(document, "damper.there", "no");
    expect(document.damper).toBeUndefined();
    expect(document.points).not.toHaveProperty("damper.top");
    expect(askedQuestions(document).some(({ id }) => id === "damper.open_mm")).toBe(false);
  });

  it("a point that was taken by tape, or whose note was written, counts as measured", () => {
    const begun = beginSetup("hub-and-arm");
    const question = questionOf("hub-and-arm", "arm.front");
    expect(standingOf(withPointMeasured(begun, "arm.front"), question)).toBe("measured");
    const skipped = assume(begun, "arm.front");
    expect(standingOf(skipped, question)).toBe("assumed");
    const noted = { ...skipped.points, "arm.front": { at: [470, 590, 200] as const, how: "tape" } };
    expect(standingOf({ ...skipped, points: noted }, question)).toBe("measured");
  });

  it("can be put away and taken up again without losing what it knows", () => {
    const document = answer(beginSetup("strut"), "wheel.tyre", "195/50R15");
    const closed = withSetupClosed(document, true);
    expect(closed.setup!.closed).toBe(true);
    expect(withSetupClosed(closed, false)).toEqual(document);
  });
});

describe("an answer that cannot be is told with its mend", () => {
  const begun = beginSetup("hub-and-arm");
  const faultOf = (id: string, value: unknown) =>
    (questionOf("hub-and-arm", id).fault as (value: unknown, document: typeof begun) => SetupFault | null)(
      value,
      begun,
    );

  it.each([
    ["wheel.tyre", "205 by 55", { code: "tyre", written: "205 by 55" }],
    ["wheel.rimWidth_in", 165, { code: "too-much", value: 165, min: 3, max: 16, unit: "inches", mend: "rimWidth" }],
    ["wheel.rimOffset_mm", 420, { code: "too-much", min: -120, max: 150, unit: "mm", mend: "rimOffset" }],
    ["wheel.centre", [0, 1480, 305], { code: "centre-out", size_mm: 1480 }],
    ["wheel.centre", [0, 740, 30], { code: "centre-up", size_mm: 30 }],
    ["wheel.centre", [510, 740, 305], { code: "centre-forward", size_mm: 510 }],
    ["wheel.camber_deg", 30, { code: "too-much", unit: "degrees", mend: "camber" }],
    ["upper.in", [5800, 318, 412], { code: "far-off" }],
    ["travel.bump_mm", 0, { code: "too-little", mend: "travel" }],
    ["title", " ", { code: "title" }],
  ])("%s as %j", (id, value, fault) => {
    expect(faultOf(id, value)).toMatchObject(fault);
  });

  it("and what would leave a scene that cannot be opened again is refused with the reason", () => {
    expect(() => answer(begun, "upper.in", [60, 650, 435])).toThrow(/link upper/);
    expect(() => answer(begun, "damper.open_mm", 400)).toThrow(/nothing is asked/);
    const withDamper = assume(answer(begun, "damper.there", "yes"), "damper.open_mm");
    expect(() => answer(withDamper, "damper.closed_mm", 900)).toThrow(/damper/);
  });

  it("an assumed length makes way for a measured one beside it as long as it is open", () => {
    const withShaft = answer(begun, "shaft.there", "yes");
    const long = answer(withShaft, "shaft.shortest_mm", 540);
    expect(long.driveshaft!.longest_mm).toBeGreaterThan(540);
    expect(answer(long, "shaft.longest_mm", 575).driveshaft).toMatchObject({ shortest_mm: 540, longest_mm: 575 });
  });
});

describe("the gap that is asked for exhausts", () => {
  const tailpipe = {
    id: "tailpipe",
    on: "chassis",
    shape: { kind: "sphere", at: [300, 300, 300], diameter_mm: 60 },
  };
  const shaped = (role: string) => {
    const document = blankCorner("hub-and-arm");
    return { ...document, bodies: [...document.bodies, { ...tailpipe, role }] };
  };
  const rule = { a: "role:exhaust", b: "*", mm: 25 };

  it("waits for its part beside a role that reads much like it", () => {
    const read = readScene(JSON.stringify(shaped("exhausts")), "made.json");
    expect(resolveScene(read).bodies.at(-1)!.role).toBe("exhausts");
    const without = removePart(read, "tailpipe");
    expect(without.clearances.rules).toContainEqual(rule);
  });

  it("is refused in a file of its own hand, where it would be a slip", () => {
    const { setup: _, ...own } = shaped("exhausts");
    expect(() => resolveScene(readScene(JSON.stringify(own), "made.json"))).toThrow(/no body has the role "exhaust"/);
  });
});
