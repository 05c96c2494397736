import { describe, expect, it } from "vitest";
import { leftOverOf, MIXES, randomCase } from "../loads/cornerCase.ts";

const EACH = 1300;

describe("ten thousand random corners, under any load, damper and drop link on any part", () => {
  let counted = 0;
  it.each(MIXES)("keep every body's equilibrium to 1e-6 N: %s", (mix) => {
    for (let seed = 1; seed <= EACH; seed++) {
      const found = randomCase(10_000 + seed, mix);
      if (!found?.loads) continue;
      counted++;
      const { force_N, turn_N } = leftOverOf(found);
      expect(force_N, `seed ${seed}`).toBeLessThan(1e-6);
      expect(turn_N, `seed ${seed}`).toBeLessThan(1e-6);
    }
  });

  it("are ten thousand", () => {
    expect(counted).toBeGreaterThanOrEqual(10_000);
  });
});
