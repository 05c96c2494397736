import { describe, expect, it } from "vitest";
import type { SceneDocument } from "../../src/scene/document.ts";
import { Machine } from "../../src/work/machine.ts";
import { storyCorner } from "../check/storyCorner.ts";
import { SCENE_FILES } from "../scenes/files.ts";
import { Crew, checkAlone, moved } from "./crew.ts";

/** What takes the machines little time: a short travel of one side, the engine at rest, drawn coarsely. */
function small({ powertrain, ...document }: SceneDocument): SceneDocument {
  const { poses: _, ...placed } = powertrain ?? {};
  const travel = { bump_mm: 8, droop_mm: 8, step_mm: 4 };
  return { ...document, powertrain: placed, travel, sides: "left", tessellation_mm: 2 };
}

const documents: [string, SceneDocument][] = [
  ["the corner of the stories", storyCorner({ tessellation_mm: 1 })],
  ...SCENE_FILES.map(({ name, document }): [string, SceneDocument] => [name, small(document)]),
];

describe.each(documents)("%s", (_, document) => {
  it("has one result however many machines share the check, after an edit too", async () => {
    const steps = [document, moved(document), document];
    const machine = new Machine();
    const expected = [];
    for (const step of steps) expected.push(await checkAlone(machine, step));
    const made = new Set<number>();
    for (const size of [1, 2, 3, 4]) {
      const crew = new Crew(size);
      for (const [i, step] of steps.entries()) expect(await crew.check(step)).toEqual(expected[i]);
      made.add(crew.made);
    }
    // each tree once, by whoever came first
    expect([...made]).toHaveLength(1);
  });
});

it("makes a tree again that another machine made and nobody got", async () => {
  const document = storyCorner({ tessellation_mm: 1 });
  const crew = new Crew(2, () => false);
  expect(await crew.check(document)).toEqual(await checkAlone(new Machine(), document));
});
