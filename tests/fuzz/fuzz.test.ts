import { describe, expect, it } from "vitest";
import { DOORS } from "./doors.ts";
import { savedCases } from "./saved.ts";
import { countsOf, openCases, openSaved } from "./watch.ts";

const CASES = 1000;
const seed = Number(process.env.FUZZ_SEED ?? 8);

describe("whatever is handed in", () => {
  it(`is read truly or refused by place and mend (${CASES} cases, FUZZ_SEED=${seed})`, async () => {
    const { found, doors } = await openCases(seed, countsOf(CASES, DOORS));
    expect(found).toEqual([]);
    expect([...doors.keys()]).toEqual(DOORS.map(({ name }) => name));
  }, 600_000);

  it("and so is every case that once was not", async () => {
    const counts = new Map(DOORS.map((door) => [door.name, savedCases(door).length]));
    const { found } = await openSaved(counts);
    const named = found.map((each) => ({
      ...each,
      case: savedCases(DOORS.find(({ name }) => name === each.door)!)[each.index]?.name,
    }));
    expect(named).toEqual([]);
  }, 600_000);
});
