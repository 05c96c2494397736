import { describe, expect, inject, it } from "vitest";
import { killAndReopen } from "./kills.ts";

/** Set in the environment to try others: KILLS_SEED. The long suite does 200 (tests/long/kills.test.ts). */
const SEED = Number(process.env.KILLS_SEED ?? Date.now() % 1_000_000);

describe("a browser that is killed at a random moment", () => {
  it(`has all that was done, or all but the last, and never lost a project (seed ${SEED})`, async () => {
    const { rounds, wrong } = await killAndReopen(inject("address"), { rounds: 5, seed: SEED });
    expect(wrong).toEqual([]);
    expect(rounds).toBe(5);
  }, 300_000);
});
