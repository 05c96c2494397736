import { describe, expect, it } from "vitest";
import { Machine } from "../../src/work/machine.ts";
import { SCENE_FILES } from "../scenes/files.ts";
import { Crew, checkAlone, moved } from "../work/crew.ts";

describe.each(SCENE_FILES.map(({ name, document }) => [name, document] as const))("%s as it is", (_, document) => {
  it("has one result for one machine and for two, three and four, after an edit too", async () => {
    const steps = [document, moved(document), document];
    const machine = new Machine();
    const expected = [];
    for (const step of steps) expected.push(await checkAlone(machine, step));
    for (const size of [2, 3, 4]) {
      const crew = new Crew(size);
      for (const [i, step] of steps.entries()) expect(await crew.check(step)).toEqual(expected[i]);
    }
  });
});
