import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { TOLD_BACK } from "./quantities/toldBack.ts";
import { agreementText, faultsOfAgreements, faultsOfTable, reachedIn, tableIn, tableOf, withTable } from "./readme.ts";
import { type QuantityId, ROWS } from "./register.ts";
import { statedQuantities } from "./stated.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const readme = readFileSync(`${root}README.md`, "utf8");

describe("what the program states", () => {
  const stated = statedQuantities();
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

  it.each(ROWS)("%s: its test is there and reports it", (id, { file, test, against, states }) => {
    const source = sources.get(file)!;
    expect(titlesOf(source)).toContain(test);
    expect(source).toMatch(new RegExp(`\\bagrees(Within|On)?\\(\\s*"${id}"`));
    expect(against.length).toBeGreaterThan(3);
    expect(states.length).toBeGreaterThan(0);
  });

  it("stands in the README as it is: if not, node --import tsx tests/truth/table.ts", () => {
    expect(faultsOfTable(tableIn(readme))).toEqual([]);
  });
});

describe("the README's table", () => {
  const of = (off: number) => new Map(ROWS.map(([id]) => [id, { off, count: 1 }]));
  const [first] = ROWS.find(([, { unit }]) => unit !== null)!;

  it("tells the decade above a deviation, the same for any that rounding makes", () => {
    const text = (off: number, unit: string | null = "mm") => agreementText({ unit }, { off, count: 1 });
    expect([0, 1e-16, 3e-11].map((off) => text(off))).toEqual(["1e-10 mm", "1e-10 mm", "1e-10 mm"]);
    expect([4e-10, 3e-4, 0.2, 2].map((off) => text(off))).toEqual(["1e-8 mm", "1e-3 mm", "1e0 mm", "1e1 mm"]);
    expect(text(0, null)).toBe("the same");
  });

  it("is refused where a run is farther off than it says, or far nearer", () => {
    const table = tableOf(of(2e-7));
    expect(faultsOfTable(table)).toEqual([]);
    expect(faultsOfAgreements(table, of(9e-7))).toEqual([]);
    expect(faultsOfAgreements(table, of(2e-9))).toEqual([]);
    const farther = new Map(of(2e-7)).set(first, { off: 2e-6, count: 1 });
    expect(faultsOfAgreements(table, farther)).toEqual([expect.stringContaining(`${first}: off by 0.000002`)]);
    const nearer = new Map(of(2e-7)).set(first, { off: 1e-15, count: 1 });
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

  it("is put between its marks, and nothing else is touched", () => {
    const table = tableOf(of(1e-5));
    const written = withTable(readme, table);
    expect(tableIn(written)).toBe(table);
    expect(withTable(written, tableIn(readme))).toBe(readme);
  });

  it("takes the farthest off of all tests of the row's file, and none of another file", () => {
    const [id, { file }] = ROWS[0]!;
    const test = (off: number) => ({ meta: { agreements: { [id as QuantityId]: { off, count: 2 } } } });
    const reached = reachedIn({
      testResults: [
        { name: `/somewhere/${file}`, assertionResults: [test(1e-9), test(3e-9), {}] },
        { name: "/somewhere/tests/another.test.ts", assertionResults: [test(1)] },
      ],
    });
    expect(reached).toEqual(new Map([[id, { off: 3e-9, count: 4 }]]));
  });
});

/** Titles of tests as they stand in a source. */
function titlesOf(source: string): string[] {
  return [...source.matchAll(/"((?:[^"\\\n]|\\.)*)"/g)].map((found) => found[1]!);
}
