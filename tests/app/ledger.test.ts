import { describe, expect, it } from "vitest";
import { isPairRow, ledgerRows, tallies } from "../../src/app/corner/ledgerRows.ts";
import { checkResult, pairVerdict } from "./smallScene.ts";

describe("rows of the ledger", () => {
  it("worst first: clashes by depth, then passed limits, tight, clear", () => {
    const rows = ledgerRows(
      checkResult(
        [
          pairVerdict({ a: "sump", verdict: "tight", clearance_mm: 2 }),
          pairVerdict({ a: "shield", verdict: "clear", clearance_mm: 40 }),
          pairVerdict({ clearance_mm: -1 }),
          pairVerdict({ a: "rail", clearance_mm: -6 }),
        ],
        [
          {
            side: "left",
            what: "stop",
            verdict: "clash",
            value: 300,
            limit: 310,
            at: { travel_mm: 60, pose: "rest" },
            passedAt_mm: 50,
          },
        ],
      ),
    );
    expect(rows.map(({ kind }) => kind)).toEqual(["clash", "clash", "limit", "tight", "clear"]);
    expect(rows.filter(isPairRow).map(({ pair }) => pair.clearance_mm)).toEqual([-6, -1, 2, 40]);
  });

  it("left and right of one pair share a row when their verdict is the same, told by the worse", () => {
    const left = pairVerdict({ clearance_mm: -3 });
    const right = pairVerdict({ side: "right", clearance_mm: -5 });
    const [row, ...more] = ledgerRows(checkResult([left, right]));
    expect(more).toEqual([]);
    expect(row && isPairRow(row) && [row.pair, row.twin]).toEqual([right, left]);
  });

  it("they stay apart where one side clashes and the other does not: no clash hides", () => {
    const rows = ledgerRows(
      checkResult([pairVerdict(), pairVerdict({ side: "right", verdict: "clear", clearance_mm: 30 })]),
    );
    expect(rows.map(({ kind }) => kind)).toEqual(["clash", "clear"]);
  });

  it("every pair and limit of the result is told in exactly one row", () => {
    const pairs = ["left", "right", "both"].flatMap((side) =>
      ["rail", "sump"].map((a) => pairVerdict({ side: side as "left", a })),
    );
    const binds = { what: "binds", verdict: "clash", value: 64, limit: 80, passedAt_mm: 64 } as const;
    const limits = (["left", "right"] as const).map((side) => ({
      ...binds,
      side,
      at: { travel_mm: 64, pose: "rest" },
    }));
    const rows = ledgerRows(checkResult(pairs, limits));
    const told = rows.flatMap((row): unknown[] => (isPairRow(row) ? [row.pair, row.twin] : [row.limit, row.twin]));
    expect(new Set(told.filter(Boolean))).toEqual(new Set([...pairs, ...limits]));
    expect(tallies(rows)).toEqual({ clash: 4, limit: 1, tight: 0, clear: 0, accepted: 0 });
  });

  it("two joints at one limit on one side are two rows, each with its own other side", () => {
    const limits = ["upper.inboard", "upper.outboard"].flatMap((joint) =>
      (["left", "right"] as const).map((side) => ({
        side,
        what: "joint-tilt" as const,
        joint,
        verdict: "clear" as const,
        value: 4.2,
        limit: 13,
        at: { travel_mm: 60, pose: "rest" },
        passedAt_mm: null,
      })),
    );
    const rows = ledgerRows(checkResult([], limits));
    const told = rows.flatMap((row) => (isPairRow(row) ? [] : [[row.limit.joint, row.twin?.joint]]));
    expect(told).toEqual([
      ["upper.inboard", "upper.inboard"],
      ["upper.outboard", "upper.outboard"],
    ]);
  });
});
