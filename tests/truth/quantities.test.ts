import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { type Comparison, comparisons } from "./compared.ts";
import { TOLD_BACK } from "./quantities/toldBack.ts";
import {
  agreementText,
  faultsOfAgreements,
  faultsOfComparisons,
  faultsOfTable,
  reachedIn,
  tableIn,
  tableOf,
  withTable,
} from "./readme.ts";
import { type QuantityId, ROWS } from "./register.ts";
import { withStated } from "./stated.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const readme = readFileSync(`${root}README.md`, "utf8");
const { stated, calls } = withStated((found) => ({ stated: found.all, calls: comparisons(found) }));

describe("what the program states", () => {
  const held = new Set<string>(ROWS.flatMap(([, { states }]) => states));
  const toldBack = Object.values(TOLD_BACK).flat();

  it("is found in the code: of every kind of result, and a good many", () => {
    expect(stated.size).toBeGreaterThan(400);
    for (const name of ["CurvePoint.toe_deg", "PairVerdict.clearance_mm", "CutPiece.cut_mm", "limit strap"]) {
      expect([...stated.keys()]).toContain(name);
    }
  });

  it("has for each number a check against something outside, or is told back as it was given", () => {
    const without = [...stated].filter(([name]) => !held.has(name) && !toldBack.includes(name));
    expect(
      without.map(([name, way]) => `${name} (${way})`),
      "numbers that nothing outside holds: add them to a row of tests/truth/quantities, or write the check",
    ).toEqual([]);
  });

  it("is what the register speaks of, and nothing that is gone", () => {
    expect([...held, ...toldBack].filter((name) => !stated.has(name))).toEqual([]);
    expect(toldBack.filter((name) => held.has(name))).toEqual([]);
  });
});

describe("the register", () => {
  const sources = new Map(ROWS.map(([, { file }]) => [file, readFileSync(`${root}${file}`, "utf8")]));

  it.each(ROWS)("%s: its test is there and reports it", (id, { file, test, against, states, beneath }) => {
    expect(titlesOf(sources.get(file)!)).toContain(test);
    const its = calls.filter(({ quantities }) => quantities.includes(id));
    expect(its.length).toBeGreaterThan(0);
    expect(against.length).toBeGreaterThan(3);
    if (beneath === undefined) expect(states.length).toBeGreaterThan(0);
    else expect([states, ROWS.some(([each, row]) => each === beneath && !row.beneath)]).toEqual([[], true]);
  });

  it("names no number that its own test does not compare", () => {
    const reached = new Map(ROWS.map(([id]) => [id, { off: 0, count: 1, lines: calls.map(({ line }) => line) }]));
    expect(faultsOfComparisons(calls, reached)).toEqual([]);
  });

  it("is held where it says: no comparison stands in another file than its row's", () => {
    const file = new Map<string, string>(ROWS.map(([id, row]) => [id, row.file]));
    const elsewhere = calls.filter((call) => call.quantities.some((id) => file.get(id) !== call.file));
    expect(elsewhere.map((call) => `${call.file}:${call.line} ${call.quantities}`)).toEqual([]);
    expect(
      calls.filter(({ quantities }) => quantities.length === 0).map((call) => `${call.file}:${call.line}`),
    ).toEqual([]);
  });

  it("stands in the README as it is: if not, node --import tsx tests/truth/table.ts", () => {
    expect(faultsOfTable(tableIn(readme))).toEqual([]);
  });
});

describe("the README's table", () => {
  const of = (off: number) => new Map(ROWS.map(([id]) => [id, { off, count: 1, lines: [] }]));
  const [first] = ROWS.find(([, { unit }]) => unit !== null)!;

  it("tells the decade above a deviation, the same for any that rounding makes", () => {
    const text = (off: number, unit: string | null = "mm") => agreementText({ unit }, { off });
    expect([0, 1e-16, 3e-11].map((off) => text(off))).toEqual(["1e-10 mm", "1e-10 mm", "1e-10 mm"]);
    expect([4e-10, 3e-4, 0.2, 2].map((off) => text(off))).toEqual(["1e-8 mm", "1e-3 mm", "1e0 mm", "1e1 mm"]);
    expect(text(0, null)).toBe("the same");
  });

  it("is refused where a run is farther off than it says, or far nearer", () => {
    const table = tableOf(of(2e-7));
    expect(faultsOfTable(table)).toEqual([]);
    expect(faultsOfAgreements(table, of(9e-7))).toEqual([]);
    expect(faultsOfAgreements(table, of(2e-9))).toEqual([]);
    const farther = new Map(of(2e-7)).set(first, { off: 2e-6, count: 1, lines: [] });
    expect(faultsOfAgreements(table, farther)).toEqual([expect.stringContaining(`${first}: off by 0.000002`)]);
    const nearer = new Map(of(2e-7)).set(first, { off: 1e-15, count: 1, lines: [] });
    expect(faultsOfAgreements(table, nearer)).toEqual([expect.stringContaining(`${first}: off by only`)]);
    const untold = new Map(of(2e-7));
    untold.delete(first);
    expect(faultsOfAgreements(table, untold)).toEqual([expect.stringContaining("no test told")]);
  });

  it("is refused where a row is missing, turned or of another check", () => {
    const lines = tableOf(of(1e-7)).split("\n");
    expect(faultsOfTable(lines.slice(0, -1).join("\n")).length).toBeGreaterThan(0);
    const turned = [...lines.slice(0, 2), lines[3]!, lines[2]!, ...lines.slice(4)];
    expect(faultsOfTable(turned.join("\n"))).toHaveLength(2);
  });

  it("is refused where a number was compared by no call that the run came to", () => {
    const [id, { file, states }] = ROWS.find(([, row]) => row.states.length === 2)!;
    const call = (line: number, state: string): Comparison => {
      return { quantities: [id], file, line, compares: new Set([state]) };
    };
    const both = [call(5, states[0]!), call(9, states[1]!)];
    const faults = (lines: readonly number[], made = both) =>
      faultsOfComparisons(made, new Map([[id, { off: 0, count: 1, lines }]])).filter((fault) =>
        fault.startsWith(`${id}:`),
      );
    expect(faults([5, 9])).toEqual([]);
    expect(faults([5])).toEqual([`${id}: ${states[1]} was compared by no test`]);
    expect(faults([5, 9], [both[0]!, { ...both[1]!, file: "tests/another.test.ts" }])).toHaveLength(1);
  });

  it("is put between its marks, and nothing else is touched", () => {
    const table = tableOf(of(1e-5));
    const written = withTable(readme, table);
    expect(tableIn(written)).toBe(table);
    expect(withTable(written, tableIn(readme))).toBe(readme);
  });

  it("takes the farthest off of all tests of the row's file, and none of another file", () => {
    const [id, { file }] = ROWS[0]!;
    const test = (off: number) => ({ meta: { agreements: { [id as QuantityId]: { off, count: 2, lines: [7] } } } });
    const reached = reachedIn({
      testResults: [
        { name: `/somewhere/${file}`, assertionResults: [test(1e-9), test(3e-9), {}] },
        { name: "/somewhere/tests/another.test.ts", assertionResults: [test(1)] },
      ],
    });
    expect(reached).toEqual(new Map([[id, { off: 3e-9, count: 4, lines: [7, 7] }]]));
  });
});

/** Titles of tests as they stand in a source. */
function titlesOf(source: string): string[] {
  return [...source.matchAll(/"((?:[^"\\\n]|\\.)*)"/g)].map((found) => found[1]!);
}
