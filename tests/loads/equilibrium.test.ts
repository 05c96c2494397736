import { describe, expect, it } from "vitest";
import { agreesWithin } from "../truth/agreement.ts";
import { leftOverOf, MIXES, randomCase } from "./cornerCase.ts";

/** The long suite runs ten thousand (tests/long/loads.test.ts). */
const EACH = 60;

describe.each(MIXES)("equilibrium of every body: %s", (mix) => {
  it("is kept to 1e-6 N under any load, damper and drop link on any part", () => {
    let counted = 0;
    for (let seed = 1; seed <= EACH; seed++) {
      const found = randomCase(seed, mix);
      if (!found?.loads) continue;
      counted++;
      const { force_N, turn_N } = leftOverOf(found);
      expect(force_N, `seed ${seed}`).toBeLessThan(1e-6);
      expect(turn_N, `seed ${seed}`).toBeLessThan(1e-6);
      agreesWithin("residual", found.loads.residual_N, 0, 1e-6, `seed ${seed}`);
      agreesWithin("residualMoment", found.loads.residual_Nmm, 0, 1e-3, `seed ${seed}`);
    }
    expect(counted).toBeGreaterThan(EACH * 0.6);
  });
});
