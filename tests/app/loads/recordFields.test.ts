import { describe, expect, it } from "vitest";
import { LISTS, type ListName } from "../../../src/app/loads/formsStore.ts";
import {
  fieldsOf,
  type LoadRecord,
  lacksOf,
  newRecord,
  valueAt,
  withCut,
  withValue,
} from "../../../src/app/loads/recordFields.ts";
import type { SceneDocument } from "../../../src/scene/document.ts";
import { type LoadsDocument, withLoads } from "../../../src/scene/loadsEdits.ts";
import { loadedScene } from "./loadedScene.ts";

const document = loadedScene();

/** What a builder puts in, in the order of the fields. */
const TOLD: Readonly<Record<ListName, LoadRecord>> = {
  cases: {},
  materials: { yield_MPa: 420, ultimate_MPa: 560 },
  tubes: { diameter_mm: 26, wall_mm: 2.5, material: "E355+N" },
  bolts: { thread: "M12", class: "10.9", planes: 2 },
  plates: { count: 2, thickness_mm: 5, hole_mm: 13, end_mm: 26, side_mm: 20, material: "S355" },
  welds: { throat_mm: 3, length_mm: 40, runs: 2, material: "S355" },
  ratings: { static_N: 31_500 },
};

describe("forms of load records", () => {
  it.each(LISTS)(
    "begin a record of %s for the first joint or part that has none, and hold back until it is told",
    (list) => {
      const first = newRecord(list, [], document);
      const second = newRecord(list, [first], document);
      for (const key of ["joint", "member", "id"]) if (key in first) expect(second[key]).not.toBe(first[key]);
      const lacks = lacksOf(list, first, document).map(({ key }) => key);
      expect(lacks).toEqual(Object.keys(TOLD[list]));
      const told = { ...first, ...TOLD[list] };
      expect(lacksOf(list, told, document)).toEqual([]);
      const kept = withLoads(document, { [list]: [told] } as Partial<LoadsDocument>);
      expect(kept.loads?.[list]).toEqual([told]);
    },
  );

  it.each(LISTS)("ask for every field that a new record of %s has", (list) => {
    const record = newRecord(list, [], document);
    const asked = fieldsOf(list, record, document).map(({ key }) => key.split(".")[0]);
    expect(asked).toEqual(expect.arrayContaining(Object.keys(record)));
  });

  it("begin with the joint or part that was asked for", () => {
    expect(newRecord("bolts", [], document, "toe.inboard")).toMatchObject({ joint: "toe.inboard" });
    expect(newRecord("tubes", [], document, "toe")).toMatchObject({ member: "toe" });
    expect(newRecord("materials", [], document, "25CrMo4")).toMatchObject({ id: "25CrMo4" });
  });

  it("cut an arm that is one with the hub, and no other", () => {
    const members = [{ id: "arm", kind: "ball", at: [0, 0, 0] }] as unknown as SceneDocument["members"];
    const armed = { ...document, members: [...document.members, ...members] };
    expect(withCut({ member: "arm", section: "front" }, armed)).toEqual({ member: "arm", cut: "upper.out" });
    expect(withCut({ member: "toe", cut: "upper.out" }, armed)).toEqual({ member: "toe" });
    const fields = fieldsOf("tubes", { member: "arm" }, armed).map(({ key }) => key);
    expect(fields).toContain("cut");
    expect(fields).not.toContain("section");
  });

  it("write into records within, and leave out what is nothing", () => {
    const up = withValue({ id: "a" }, "timesStatic.up", 3);
    expect(up).toEqual({ id: "a", timesStatic: { up: 3 } });
    expect(valueAt(up, "timesStatic.up")).toBe(3);
    expect(withValue(up, "timesStatic.up", undefined)).toEqual({ id: "a" });
  });
});
