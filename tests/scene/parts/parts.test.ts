import { describe, expect, it } from "vitest";
import { buildSolid } from "../../../src/geometry/buildSolid.ts";
import { bounds } from "../../../src/geometry/measure.ts";
import { mirrorSolid, transformSolid } from "../../../src/geometry/rearrange.ts";
import { identityPose, rotationPose, turnPose } from "../../../src/maths/pose.ts";
import type { Vec3 } from "../../../src/maths/vec3.ts";
import type { SceneDocument } from "../../../src/scene/document.ts";
import { addPart, addParts, dressMember, withSizes, withUnit } from "../../../src/scene/parts/add.ts";
import { copyPart } from "../../../src/scene/parts/copy.ts";
import { mirrorAcross, withMirror } from "../../../src/scene/parts/mirror.ts";
import { changeMount, turnOf } from "../../../src/scene/parts/mount.ts";
import { movePart } from "../../../src/scene/parts/move.ts";
import { partOf, partsOf } from "../../../src/scene/parts/parts.ts";
import { placePowertrain } from "../../../src/scene/parts/powertrain.ts";
import { consequencesOf, ownPoints, removePart } from "../../../src/scene/parts/remove.ts";
import { renamePart, withRole } from "../../../src/scene/parts/rename.ts";
import { withBoltedUp, withPoint } from "../../../src/scene/points.ts";
import { usualMade } from "../../../src/scene/recipes/makeShape.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { contextAt } from "../../geometry/support.ts";
import { looseScene, refusal } from "../fixture.ts";
import { withTwoParts } from "./document.ts";

const drawn = (document: SceneDocument, id: string) =>
  buildSolid(resolveScene(document).bodies.find((body) => body.id === id)!.shape, contextAt(0.1));

function expectSameBounds(a: ReturnType<typeof bounds>, b: ReturnType<typeof bounds>, within_mm = 0.01) {
  for (const i of [0, 1, 2] as const) {
    expect(Math.abs(a.min[i] - b.min[i])).toBeLessThan(within_mm);
    expect(Math.abs(a.max[i] - b.max[i])).toBeLessThan(within_mm);
  }
}

describe("adding", () => {
  it("writes a plain shape beside the recipe, on names and offsets", () => {
    const document = withTwoParts();
    const clevis = document.bodies.at(-2)!;
    expect(clevis).toMatchObject({
      id: "clevis",
      on: "chassis",
      role: "bracket",
      mirror: true,
      made: { as: "clevis" },
    });
    expect(JSON.stringify(clevis.shape)).toContain('{"from":"toe.in","by":');
    expect(document.points["tube.a"]).toEqual([-300, 280, 300]);
  });

  it("refuses an id and a point that are taken, and a mount that is not there", () => {
    const part = { id: "clevis", on: "chassis", made: usualMade("clevis") };
    expect(refusal(() => addPart(withTwoParts(), part))).toMatchObject({ code: "duplicate-id" });
    const taken = { ...part, id: "other", points: { "toe.in": [0, 0, 0] as Vec3 } };
    expect(refusal(() => addPart(withTwoParts(), taken))).toMatchObject({ code: "duplicate-id" });
    const nowhere = { ...part, id: "other", on: "chasis" };
    const error = refusal(() => addPart(withTwoParts(), nowhere));
    expect([error.code, error.wanted]).toEqual(["missing-id", "chassis?"]);
  });

  it("adds several or none", () => {
    const document = withTwoParts();
    const parts = ["a", "clevis"].map((id) => ({ id, on: "chassis", made: usualMade("clevis") }));
    expect(refusal(() => addParts(document, parts)).code).toBe("duplicate-id");
  });

  it("dresses a link between its own ends, which then goes where they go", () => {
    const made = { ...usualMade("cranked arm"), a: "toe.in", b: "toe.out" };
    const document = dressMember(withTwoParts(), "toe", made);
    const moved = withPoint(document, "toe.out", [-150, 690, 230]);
    const toe = moved.members.find(({ id }) => id === "toe")!;
    expect(toe.body).not.toEqual(document.members.find(({ id }) => id === "toe")!.body);
    expect(toe.made).toEqual(made);
    expect(refusal(() => dressMember(document, "rail", made)).path).toBe("bodies[1]");
  });
});

describe("sizes", () => {
  it("draws the part anew and keeps all else", () => {
    const before = withTwoParts();
    const made = { ...before.bodies.at(-2)!.made!, reach_mm: 70 };
    const after = withSizes(before, "clevis", made);
    expect(after.bodies.at(-2)).toMatchObject({ id: "clevis", mirror: true, made: { reach_mm: 70 } });
    const [short, long] = [bounds(drawn(before, "clevis")), bounds(drawn(after, "clevis"))];
    expect(short.min[1] - long.min[1]).toBeCloseTo(25, 2);
  });

  it("is refused at the size that does not fit", () => {
    const before = withTwoParts();
    const made = { ...before.bodies.at(-2)!.made!, pin_mm: 90 };
    expect(refusal(() => withSizes(before, "clevis", made))).toMatchObject({ path: "made.pin_mm" });
  });

  it("has the driveshaft, damper, bar and wheel by their own records", () => {
    const before = withTwoParts();
    expect(withUnit(before, "wheel", { ...before.wheel, tyre: "225/45R17" }).wheel.tyre).toBe("225/45R17");
    expect(refusal(() => withUnit(before, "wheel", { ...before.wheel, tyre: "wide" })).code).toBe("tyre");
    const damper = { ...before.damper!, closed_mm: 600 };
    expect(refusal(() => withUnit(before, "damper", damper)).path).toBe("damper.open_mm");
  });
});

describe("following", () => {
  it("makes a part anew when one of its two points moves", () => {
    const before = withTwoParts();
    const after = withPoint(before, "tube.b", [-300, -280, 340]);
    const lastPlate = (document: SceneDocument) => {
      const { shape } = document.bodies.at(-1)!;
      return shape.kind === "group" ? shape.parts.at(-1) : null;
    };
    expect(lastPlate(before)).toMatchObject({ kind: "prism", u: [0, 0, 1], v: [1, 0, 0] });
    expect(lastPlate(after)).not.toEqual(lastPlate(before));
    expect(withPoint(after, "tube.b", [-300, -280, 300]).bodies).toEqual(before.bodies);
  });

  it("leaves a shape that somebody changed by hand, which follows all the same", () => {
    const before = withTwoParts();
    const tube = before.bodies.at(-1)!;
    const byHand = { kind: "capsule", from: "tube.a", to: "tube.b", diameter_mm: 50 } as const;
    const changed = { ...before, bodies: [...before.bodies.slice(0, -1), { ...tube, shape: byHand }] };
    expect(withPoint(changed, "tube.b", [-300, -280, 340]).bodies.at(-1)!.shape).toBe(byHand);
  });
});

describe("copying", () => {
  it("shares points, shifted, or brings its own at the same places", () => {
    const document = withTwoParts();
    const shared = copyPart(document, "tube", { points: "shared", shift_mm: [50, 0, 0] });
    expect(shared.bodies.at(-1)).toMatchObject({ id: "tube-2", made: { a: { from: "tube.a", by: [50, 0, 0] } } });
    const own = copyPart(document, "tube", { points: "own", shift_mm: [50, 0, 0] });
    expect(own.points["tube-2.a"]).toEqual([-250, 280, 300]);
    expect(own.bodies.at(-1)).toMatchObject({ id: "tube-2", made: { a: "tube-2.a" } });
    expectSameBounds(bounds(drawn(shared, "tube-2")), bounds(drawn(own, "tube-2")));
  });

  it("says what to do instead for what a corner has once", () => {
    const error = refusal(() => copyPart(withTwoParts(), "toe", { points: "own", shift_mm: [0, 0, 0] }));
    expect(error.wanted).toMatch(/from the shelf/);
  });
});

describe("mirroring", () => {
  it("puts a second one on the right, and takes it away", () => {
    const document = withTwoParts();
    expect(withMirror(document, "tube", true).bodies.at(-1)!.mirror).toBe(true);
    expect(withMirror(withMirror(document, "tube", true), "tube", false)).toEqual(document);
  });

  it("puts the part's image on the other side, made or not, with plates and turns", () => {
    const plain: SceneDocument = {
      ...withTwoParts(),
      bodies: [
        {
          id: "odd",
          on: "chassis",
          shape: {
            kind: "group",
            at: [10, 200, 300],
            turn_deg: [10, 20, 30],
            parts: [
              {
                kind: "prism",
                outline: [
                  [0, 0],
                  [40, 0],
                  [0, 30],
                ],
                thickness_mm: 6,
                origin: [5, 0, 0],
                u: [1, 0, 0],
                v: [0, 1, 1],
              },
              { kind: "box", at: [0, 30, 0], turn_deg: [0, 15, 40], size_mm: [10, 20, 30] },
            ],
          },
        },
      ],
      clearances: { default_mm: 10 },
    };
    expectSameBounds(bounds(drawn(mirrorAcross(plain, "odd"), "odd")), bounds(mirrorSolid(drawn(plain, "odd"))));
    const made = withTwoParts();
    const image = mirrorAcross(made, "clevis");
    expectSameBounds(bounds(drawn(image, "clevis")), bounds(mirrorSolid(drawn(made, "clevis"))), 0.2);
    expect(image.bodies.at(-2)!.made!.at).toEqual([-150, -330, 225]);
  });

  it("is refused for what stands on both sides anyway", () => {
    const document = changeMount(withTwoParts(), "clevis", "carrier");
    expect(document.bodies.find(({ id }) => id === "clevis")!.mirror).toBeUndefined();
    expect(refusal(() => withMirror(document, "clevis", true)).wrong).toMatch(/both sides/);
  });
});

describe("deleting", () => {
  it("says what goes with it and takes that along", () => {
    const document = withTwoParts();
    expect(consequencesOf(document, "clevis")).toEqual({ riders: [], rules: 1, accepted: 1, points: [] });
    expect(consequencesOf(document, "tube").points).toEqual(["tube.a", "tube.b"]);
    const after = removePart(document, "clevis");
    expect(after.clearances.rules).toEqual([{ a: "role:frame", b: "upper", mm: 12 }]);
    expect(after.clearances.accept).toEqual([]);
    expect(removePart(document, "tube", { points: ["tube.a", "tube.b"] }).points).not.toHaveProperty("tube.a");
  });

  it("refuses points that others use, parts that others ride on, and what holds the hub", () => {
    const document = withTwoParts();
    const used = refusal(() => removePart(document, "clevis", { points: ["toe.in"] }));
    expect([used.code, used.wrong]).toEqual(["wrong-value", '"toe.in" is used by "toe"']);
    expect(refusal(() => removePart(document, "lower")).wrong).toMatch(/"damper" rides on "lower"/);
    expect(refusal(() => removePart(document, "toe")).code).toBe("constraints");
    expect(refusal(() => removePart(document, "wheel")).wanted).toMatch(/other sizes/);
  });

  it("takes riders along when asked", () => {
    const document = changeMount(withTwoParts(), "clevis", "damper-upper");
    const after = removePart(document, "damper", { riders: true });
    expect(after.damper).toBeUndefined();
    expect(after.bodies.map(({ id }) => id)).toEqual(["gearbox-mount-ear", "rail", "tube"]);
  });

  it("takes what was measured of its points along", () => {
    const document = withTwoParts({ measured: { left: { "toe.in": { at: [-151, 329, 225] } } } });
    const measured = { left: { ...document.measured!.left, "tube.a": { at: [-301, 280, 300] } } } as const;
    const after = removePart({ ...document, measured }, "tube", { points: ["tube.a", "tube.b"] });
    expect(after.measured).toEqual(document.measured);
  });

  it("keeps points that other points hang on", () => {
    const hung = { ...withTwoParts() };
    const document = { ...hung, points: { ...hung.points, spare: { at: "tube.a" } } };
    expect(ownPoints(document, ["tube"])).toEqual(["tube.b"]);
  });
});

describe("renaming", () => {
  it("reaches all mentions", () => {
    const document = renamePart(renamePart(withTwoParts(), "clevis", "toe ear"), "lower", "bottom arm");
    expect(document.clearances.rules![0]!.a).toBe("toe ear");
    expect(document.clearances.accept![0]!.a).toBe("toe ear");
    expect(document.damper!.on).toBe("bottom arm");
  });

  it("is refused for taken names and the program's own", () => {
    const document = withTwoParts();
    expect(refusal(() => renamePart(document, "clevis", "tube")).code).toBe("duplicate-id");
    expect(refusal(() => renamePart(document, "clevis", "tyre")).code).toBe("duplicate-id");
    expect(refusal(() => renamePart(document, "clevis", " ")).code).toBe("wrong-value");
    expect(refusal(() => renamePart(document, "damper-upper", "leg")).path).toBe("damper");
    expect(refusal(() => renamePart(document, "clevs", "x")).wanted).toBe("clevis?");
  });

  it("gives and takes a role", () => {
    const document = withRole(withTwoParts(), "rail", "frame");
    expect(partOf(document, "rail").role).toBe("frame");
    expect(partOf(withRole(document, "rail", null), "rail").role).toBeNull();
  });
});

describe("what a part rides on", () => {
  const placed = placePowertrain(withTwoParts(), { shift_mm: [5, -8, 12], turn_deg: [3, -4, 6], about: [150, 0, 400] });
  const pose = turnPose([3, -4, 6], [150, 0, 400]);
  for (const [i, by] of [5, -8, 12].entries()) pose[4 * i + 3]! += by;

  it.each(["clevis", "tube", "rail"])("keeps %s where it is at ride height, on a powertrain in its place", (id) => {
    const after = changeMount(placed, id, "powertrain");
    expectSameBounds(bounds(transformSolid(drawn(after, id), pose)), bounds(drawn(placed, id)), 0.25);
    const back = changeMount(after, id, "chassis");
    expectSameBounds(bounds(drawn(back, id)), bounds(drawn(placed, id)), 0.01);
  });

  it("takes a turned placement off again", () => {
    const there = changeMount(placed, "rail", "powertrain");
    expect(there.bodies[1]!.shape).toHaveProperty("turn_deg");
    expect(changeMount(there, "rail", "chassis").bodies[1]!.shape).toEqual(placed.bodies[1]!.shape);
  });

  it("keeps it where its bolted-up mount is", () => {
    const bolted = withBoltedUp(withTwoParts(), "toe.in", [-150, 330, 240]);
    const after = changeMount(bolted, "clevis", "carrier", () => identityPose());
    expectSameBounds(bounds(drawn(after, "clevis")), bounds(drawn(bolted, "clevis")));
  });

  it("follows the poses that the corner is solved to", () => {
    const solved = rotationPose([0, 0, 1], 0.1, [0, 700, 300]);
    const after = changeMount(withTwoParts(), "clevis", "carrier", (mount) =>
      mount === "carrier" ? solved : identityPose(),
    );
    expectSameBounds(
      bounds(transformSolid(drawn(after, "clevis"), solved)),
      bounds(drawn(withTwoParts(), "clevis")),
      0.2,
    );
  });

  it("refuses what is not there", () => {
    expect(refusal(() => changeMount(withTwoParts(), "clevis", "uper")).wanted).toBe("upper?");
    expect(refusal(() => changeMount(withTwoParts(), "clevis", "driveshaft")).code).toBe("missing-id");
  });

  it("reads turns back from a pose", () => {
    for (const turn of [
      [10, 20, 30],
      [-100, 45, 170],
      [0, 90, 0],
      [25, -90, 0],
    ] as const) {
      const again = turnPose(turnOf(turnPose(turn)));
      turnPose(turn).forEach((value, i) => {
        expect(again[i]).toBeCloseTo(value, 9);
      });
    }
    for (const y of [0, -30, 90])
      expect(turnOf(turnPose([0, y, 0])).map((value) => Object.is(value, -0))).not.toContain(true);
  });
});

describe("moving a part", () => {
  it("moves points of its own, and sets it off from others'", () => {
    const document = withTwoParts();
    const tube = movePart(document, "tube", [0, 0, 25]);
    expect(tube.points["tube.a"]).toEqual([-300, 280, 325]);
    expect(tube.bodies.at(-1)!.shape).toEqual(document.bodies.at(-1)!.shape);
    const clevis = movePart(document, "clevis", [0, 0, 25]);
    expect(clevis.points).toEqual(document.points);
    expect(clevis.bodies.at(-2)!.made!.at).toEqual({ from: "toe.in", by: [0, 0, 25] });
    expect(movePart(clevis, "clevis", [0, 0, -25])).toEqual(document);
    const box = movePart(document, "rail", [1, 2, 3]);
    expect(box.bodies[1]!.shape.at).toEqual([1, 302, 603]);
  });

  it("is refused for members and units", () => {
    expect(refusal(() => movePart(withTwoParts(), "toe", [1, 0, 0])).path).toBe("members[2]");
    expect(refusal(() => movePart(withTwoParts(), "spring", [1, 0, 0])).path).toBe("damper");
  });
});

describe("the powertrain as one", () => {
  it("takes a place and gives it up again", () => {
    const document = withTwoParts();
    const place = { shift_mm: [0, 0, 10], turn_deg: [0, 2, 0], about: "lower.out" } as const;
    expect(placePowertrain(document, place).powertrain!.place).toEqual(place);
    expect(placePowertrain(placePowertrain(document, place), null)).toEqual(document);
    const { powertrain: _, ...without } = document;
    expect(placePowertrain(placePowertrain(without, place), null)).toEqual(without);
  });
});

it("lists every part once, with what it rides on", () => {
  const parts = partsOf(looseScene());
  expect(new Set(parts.map(({ id }) => id)).size).toBe(parts.length);
  expect(parts.map(({ kind }) => kind)).toEqual(expect.arrayContaining(["wheel", "member", "damper", "body"]));
});
