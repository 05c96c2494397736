import { describe, expect, it } from "vitest";
import { addPoint, constraintsOf, usualMember, withMembers, withRecords } from "../../../src/scene/parts/car.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { sceneFile } from "../../scenes/files.ts";

const { document } = sceneFile("3-");

describe("members as a set", () => {
  it("a wishbone is swapped for two links, on hard points of their own", () => {
    const [first, second] = [usualMember(document, "link"), usualMember(document, "link", ["link"])];
    expect(second.member.id).toBe("link-2");
    const others = document.members.filter(({ id }) => id !== "upper");
    const members = [...others, first.member, second.member];
    expect(constraintsOf(members)).toBe(5);
    // what rode on the old one has to go first
    const freed = { ...document, bodies: document.bodies.filter(({ on }) => on !== "upper") };
    const swapped = withMembers(freed, members, { ...first.points, ...second.points });
    expect(swapped.points).toHaveProperty("link.in");
    expect(() => resolveScene(swapped)).not.toThrow();
    // sizes told for the screening go with the member
    expect(document.loads!.tubes!.map(({ member }) => member)).toContain("upper");
    expect(swapped.loads!.tubes!.map(({ member }) => member)).toEqual(["lower", "toe"]);
  });

  it("one less is refused with what is wanted", () => {
    expect(() => withMembers(document, document.members.slice(1))).toThrow(/3 constraints.*5 in all/);
  });

  it("points of a member that was let go do not come along", () => {
    const { points } = usualMember(document, "strut");
    expect(withMembers(document, document.members, points).points).toEqual(document.points);
  });
});

describe("hard points and the scene's own records", () => {
  it("a new point is noted with its tolerance and how it was measured", () => {
    const grown = addPoint(document, "stud.1", { at: [600, 0, 0], tolerance_mm: 1, how: "plumb bob" });
    expect(grown.points["stud.1"]).toEqual({ at: [600, 0, 0], tolerance_mm: 1, how: "plumb bob" });
    expect(addPoint(document, "stud.1", { at: [600, 0, 0] }).points["stud.1"]).toEqual([600, 0, 0]);
    expect(() => addPoint(document, "toe.in", { at: [0, 0, 0] })).toThrow(/already/);
    expect(() => addPoint(document, " ", { at: [0, 0, 0] })).toThrow();
  });

  it("records are read through before they are kept", () => {
    const travel = { bump_mm: 50, droop_mm: 40, step_mm: 5 };
    expect(withRecords(document, { travel }).travel).toEqual(travel);
    expect(withRecords(document, { datums: undefined })).not.toHaveProperty("datums");
    const rules = [{ a: "typre", b: "*", mm: 15 }];
    expect(() => withRecords(document, { clearances: { default_mm: 10, rules } })).toThrow(/tyre\?/);
  });
});
