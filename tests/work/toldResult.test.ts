import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { CheckResult, PairVerdict } from "../../src/check/result.ts";
import { heardResult, type NamedResult, ResultTeller } from "../../src/work/toldResult.ts";

const numbers = fc.double({ noNaN: false });
const places = fc.tuple(numbers, numbers, numbers);

const verdicts: fc.Arbitrary<PairVerdict> = fc.record({
  side: fc.constantFrom("left" as const, "right" as const, "both" as const),
  a: fc.constantFrom("arm", "upper"),
  b: fc.constantFrom("frame", "sump"),
  required_mm: numbers,
  clearance_mm: numbers,
  verdict: fc.constantFrom("clash" as const, "tight" as const, "clear" as const),
  measure: fc.constant("surface" as const),
  at: fc.record({ travel_mm: numbers, pose: fc.constantFrom("rest", "drive") }),
  pointA: places,
  pointB: places,
  clashTravel_mm: fc.array(fc.tuple(numbers, numbers), { maxLength: 3 }),
  partingOfA: places,
  profile: fc.array(fc.tuple(numbers, numbers), { maxLength: 3 }),
  byPose: fc.dictionary(fc.constantFrom("rest", "drive"), numbers),
  keys: fc.tuple(fc.constantFrom("arm@left", "upper@left"), fc.constantFrom("frame", "sump")),
});

const results: fc.Arbitrary<CheckResult> = fc.record({
  scene: fc.string(),
  sides: fc.constant({}),
  pairs: fc.array(verdicts, { maxLength: 8 }),
  limits: fc.constant([]),
  summary: fc.constant({ clash: 0, tight: 0, clear: 0, accepted: 0 }),
});

/** As a message carries it. */
const carried = <T>(value: T): T => structuredClone(value);

describe("results told by what changed", () => {
  it("arrive as they were told, to the last bit, whichever the page has", () => {
    const lives = fc.array(fc.tuple(results, fc.nat({ max: 9 }), fc.boolean()), { maxLength: 12 });
    fc.assert(
      fc.property(lives, (told) => {
        const teller = new ResultTeller();
        const heard: NamedResult[] = [];
        for (const [i, [made, back, same]] of told.entries()) {
          // some verdicts of the last result come again
          const result =
            same && heard.length > 0 ? { ...made, pairs: [...made.pairs, ...heard.at(-1)!.result.pairs] } : made;
          const base = heard.at(-1 - back) ?? null;
          const sent = teller.tell(carried({ name: `${i}`, result }), base?.name ?? null);
          const got = heardResult(carried(sent), base);
          expect(got).toEqual({ name: `${i}`, result });
          heard.push(got);
        }
      }),
    );
  });

  it("name what is the same by its place, and it is the same object again", () => {
    const [first] = fc.sample(
      results.filter(
        ({ pairs }) => pairs.length > 3 && new Set(pairs.map(({ keys, side }) => side + keys)).size === pairs.length,
      ),
      1,
    );
    const changed = {
      ...first!,
      pairs: [{ ...first!.pairs[2]!, clearance_mm: 17 }, first!.pairs[0]!, first!.pairs[1]!],
    };
    const teller = new ResultTeller();
    const had = heardResult(carried(teller.tell({ name: "1", result: first! }, null)), null);
    const sent = teller.tell(carried({ name: "2", result: changed }), "1");
    expect(sent.pairs).toEqual([changed.pairs[0], 0, 1]);
    const got = heardResult(carried(sent), had);
    expect(got.result.pairs[1]).toBe(had.result.pairs[0]);
    expect(got.result.pairs[2]).toBe(had.result.pairs[1]);
  });

  it("come whole from a worker that does not know what the page has", () => {
    const [result] = fc.sample(results, 1);
    const sent = new ResultTeller().tell({ name: "7", result: result! }, "6");
    expect(sent.pairs).toEqual(result!.pairs);
  });
});
