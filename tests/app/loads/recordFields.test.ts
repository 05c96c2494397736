import { describe, expect, it } from "vitest";
import { LISTS } from "../../../src/app/loads/formsStore.ts";
import { fieldsOf, newRecord, valueAt, withCut, withValue } from "../../../src/app/loads/recordFields.ts";
import type { SceneDocument } from "../../../src/scene/document.ts";
import { type LoadsDocument, withLoads } from "../../../src/scene/loadsEdits.ts";
import { loadedScene } from "./loadedScene.ts";

const document = loadedScene();

describe("forms of load records", () => {
  it.each(LISTS)(
    "begin a record of %s that can be kept as it is, for the first joint or part that has none",
    (list) => {
      const first = newRecord(list, [], document);
      const second = newRecord(list, [first], document);
      const kept = withLoads(document, { [list]: [first, second] } as Partial<LoadsDocument>);
      expect(kept.loads?.[list]).toHaveLength(2);
      for (const key of ["joint", "member", "id"]) if (key in first) expect(second[key]).not.toBe(first[key]);
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
