import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { killAndReopen } from "../browser/kills.ts";
import { type BuiltApp, serveBuiltApp } from "../builtApp.ts";

/** Set in the environment to try others: KILLS_SEED, KILLS; KILLS_FAST: the share of rounds with keys as fast as they are taken. */
const SEED = Number(process.env.KILLS_SEED ?? Date.now() % 1_000_000);
const KILLS = Number(process.env.KILLS ?? 200);
const FAST_SHARE = Number(process.env.KILLS_FAST ?? 1 / 3);

let app: BuiltApp;
beforeAll(async () => {
  app = await serveBuiltApp();
}, 300_000);
afterAll(() => app?.close());

describe("a browser that is killed at a random moment", () => {
  it(`${KILLS} times has all that was done, or all but the last, and never lost a project (seed ${SEED})`, async () => {
    const figures = await killAndReopen(app.address, {
      rounds: KILLS,
      seed: SEED,
      fastShare: FAST_SHARE,
      tell: (line) => console.log(line),
    });
    console.log(JSON.stringify({ seed: SEED, ...figures }));
    expect(figures.wrong).toEqual([]);
    expect(figures.rounds).toBe(KILLS);
  });
});
