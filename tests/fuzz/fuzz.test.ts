import { describe, expect, it } from "vitest";
import { DOORS } from "./doors.ts";
import { savedCases } from "./saved.ts";
import { drawnJobs, openCases, savedJobs } from "./watch.ts";

const CASES = 1000;
const seed = Number(process.env.FUZZ_SEED ?? 8);

describe("whatever is handed in", () => {
  it(`is read truly or refused by place and mend (${CASES} cases, FUZZ_SEED=${seed}, and all that once were not)`, async () => {
    const { found, doors } = await openCases(seed, [...drawnJobs(CASES, DOORS), ...savedJobs(DOORS)]);
    const named = found.map((each) => {
      const door = DOORS.find(({ name }) => name === each.door)!;
      return each.isSaved ? { ...each, case: savedCases(door)[each.index]?.name } : each;
    });
    expect(named).toEqual([]);
    expect([...doors.keys()]).toEqual(DOORS.map(({ name }) => name));
  }, 900_000);
});
