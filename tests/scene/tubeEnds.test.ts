import { describe, expect, it } from "vitest";
import { drawnPart } from "../../src/scene/aside.ts";
import { removePart } from "../../src/scene/parts/remove.ts";
import { renamePart } from "../../src/scene/parts/rename.ts";
import { validateDocument } from "../../src/scene/read.ts";
import { withoutTubeEnd, withTubeEnd } from "../../src/scene/tubeEndEdits.ts";
import { TUBE_END_KINDS, tubeEndJoints, usualTubeEnd } from "../../src/scene/tubeEnds.ts";
import { itRefuses, looseScene } from "./fixture.ts";

const whole = () => validateDocument(looseScene(), "car.json");
const joint = tubeEndJoints(whole())[0]!;
const sleeve = { joint, kind: "sleeve", outside_mm: 38 } as const;

describe("how tubes end", () => {
  it("can be told of links, wishbones and the drop link only", () => {
    const scene = whole();
    const members = new Map(scene.members.map(({ id, kind }) => [id, kind]));
    for (const name of tubeEndJoints(scene).filter((each) => !each.startsWith("bar.")))
      expect(["link", "wishbone"]).toContain(members.get(name.slice(0, name.lastIndexOf("."))));
    expect(tubeEndJoints(scene)).not.toContain("damper.top");
  });

  it.each(TUBE_END_KINDS)("is told, changed and forgotten: %s", (kind) => {
    const told = withTubeEnd(whole(), usualTubeEnd(joint, kind));
    expect(told.tubeEnds).toEqual([usualTubeEnd(joint, kind)]);
    expect(withTubeEnd(told, sleeve).tubeEnds).toEqual([sleeve]);
    expect(withoutTubeEnd(told, joint)).toEqual(whole());
  });

  it("starts no check: what is drawn stays the same object", () => {
    const scene = whole();
    const told = withTubeEnd(scene, sleeve);
    expect(drawnPart(told)).toBe(drawnPart(withTubeEnd(told, { ...sleeve, outside_mm: 40 })));
    expect(drawnPart(told)).not.toHaveProperty("tubeEnds");
  });

  it("goes with its part, and goes by its part's name", () => {
    const part = joint.slice(0, joint.lastIndexOf("."));
    const renamed = renamePart(withTubeEnd(whole(), sleeve), part, "another");
    expect(renamed.tubeEnds).toEqual([{ ...sleeve, joint: joint.replace(part, "another") }]);
    const barred = withTubeEnd(withTubeEnd(whole(), sleeve), { ...sleeve, joint: "bar.arm" });
    expect(removePart(barred, "bar").tubeEnds).toEqual([sleeve]);
  });

  describe("is refused where no tube ends, or twice", () => {
    itRefuses("missing-id", [
      ["a joint that is none", { tubeEnds: [{ ...sleeve, joint: `${joint}x` }] }, "tubeEnds[0].joint", /no tube ends/],
    ]);
    itRefuses("duplicate-id", [
      ["the same joint twice", { tubeEnds: [sleeve, sleeve] }, "tubeEnds[1].joint", /stands here already/],
    ]);
  });
});
