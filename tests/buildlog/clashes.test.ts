import { describe, expect, it } from "vitest";
import { clashList } from "../../src/buildlog/clashes.ts";
import { limitKey, pairKey } from "../../src/buildlog/decision.ts";
import { digestOf } from "../../src/buildlog/digest.ts";
import type { PairVerdict } from "../../src/check/result.ts";
import { card, pair, result } from "./fixture.ts";
import { decision } from "./logs.ts";

const DAY = (day: number) => new Date(`2026-11-${day}T12:00:00Z`);

/** A card of one day whose check found these pairs. */
function dayCard(day: number, pairs: PairVerdict[], limits = result().limits) {
  return digestOf(card({ number: day, made: DAY(day), result: result({ pairs, limits }) }));
}

const said = (day: number, over: Parameters<typeof decision>[0]) =>
  decision({ id: `d${day}`, made: DAY(day).toISOString(), ...over });

const clash = pair();
const clear = pair({ verdict: "clear", clearance_mm: 14, clashTravel_mm: [] });
const short = (items: ReturnType<typeof clashList>) => items.map(({ state, by, doubt }) => ({ state, by, doubt }));

describe("the clash list", () => {
  it("has what any card found, once, with the cards that found it", () => {
    const items = clashList([dayCard(10, [clash]), dayCard(12, [pair({ clearance_mm: -2 })])], []);
    expect(items).toHaveLength(1);
    expect(items[0]).toMatchObject({ first: 10, last: 12, newest: 12, state: "open", by: null, owner: "" });
    expect(items[0]!.finding.of).toMatchObject({ clearance_mm: -2, required_mm: 10 });
  });

  it("calls fixed what the newest card finds clear, though an earlier word said it was open", () => {
    const cards = [dayCard(10, [clash]), dayCard(14, [clear])];
    expect(short(clashList(cards, []))).toEqual([{ state: "fixed", by: "check", doubt: null }]);
    const [item] = clashList(cards, [said(11, { owner: "Kim" })]);
    expect(item).toMatchObject({ state: "fixed", by: "check", owner: "Kim", last: 10 });
  });

  it("keeps open what was said to be open after the newest card, clear or not", () => {
    const cards = [dayCard(10, [clash]), dayCard(14, [clear])];
    expect(short(clashList(cards, [said(15, {})]))).toEqual([{ state: "open", by: "builder", doubt: null }]);
  });

  it("doubts what is said to be fixed while the newest card still finds it", () => {
    const items = clashList([dayCard(10, [clash])], [said(11, { state: "fixed" })]);
    expect(short(items)).toEqual([{ state: "fixed", by: "builder", doubt: "still-found" }]);
  });

  it("doubts what is open but not checked any more", () => {
    const items = clashList([dayCard(10, [clash]), dayCard(12, [])], []);
    expect(short(items)).toEqual([{ state: "open", by: null, doubt: "not-checked" }]);
  });

  it("takes the last word, in whatever order the words come", () => {
    const words = [said(13, { state: "accepted", why: "rubber flap" }), said(11, { state: "fixed" })];
    for (const order of [words, [...words].reverse()]) {
      expect(clashList([dayCard(10, [clash])], order)[0]).toMatchObject({ state: "accepted", why: "rubber flap" });
    }
  });

  it("has what the scene itself accepts, with its reason", () => {
    const accepted = pair({ verdict: "accepted", why: "meant to touch" });
    expect(clashList([dayCard(10, [accepted])], [])[0]).toMatchObject({
      state: "accepted",
      by: "scene",
      why: "meant to touch",
    });
  });

  it("lists open before accepted before fixed; clashes by depth, then limits, then what is tight", () => {
    const passed = { ...result().limits[0]!, verdict: "clash" as const, value: 449, passedAt_mm: -60 };
    const pairs = [
      pair({ a: "tight-one", verdict: "tight", clearance_mm: 3 }),
      pair({ a: "shallow", clearance_mm: -1 }),
      pair({ a: "deep", clearance_mm: -9 }),
      pair({ a: "flap", verdict: "accepted", why: "meant" }),
      pair({ a: "done", clearance_mm: -20 }),
    ];
    const items = clashList([dayCard(10, pairs, [passed])], [said(11, { key: pairKey(pairs[4]!), state: "fixed" })]);
    expect(items.map(({ finding: { of } }) => (of.kind === "pair" ? of.a : of.what))).toEqual([
      "deep",
      "shallow",
      "shaft-length",
      "tight-one",
      "flap",
      "done",
    ]);
  });

  it("keeps scenes apart", () => {
    const other = { ...dayCard(12, [clear]), sceneTitle: "Another car" };
    expect(short(clashList([dayCard(10, [clash]), other], []))).toEqual([{ state: "open", by: null, doubt: null }]);
  });

  it("tells the shortest of a length from its longest, passed or not", () => {
    const limit = result().limits[0]!;
    const longest = [limit, { ...limit, verdict: "clash" as const, value: 450 }].map(limitKey);
    const shortest = [
      { ...limit, limit: 419, value: 426 },
      { ...limit, limit: 419, value: 417, verdict: "clash" as const },
    ].map(limitKey);
    expect(longest[0]).toBe(longest[1]);
    expect(shortest[0]).toBe(shortest[1]);
    expect(longest[0]).not.toBe(shortest[0]);
  });
});
