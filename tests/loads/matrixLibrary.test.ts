import { describe, it } from "vitest";
import { standCorner } from "../../src/loads/stand.ts";
import { distance, mirror } from "../../src/maths/vec3.ts";
import { agrees, agreesWithin } from "../truth/agreement.ts";
import { MIXES, randomCase } from "./cornerCase.ts";
import { FreeBodies } from "./freeBodies.ts";

// outside check: ml-matrix, a general-purpose matrix library, solves every part's equations at once by its own LU factors
describe.each(MIXES)("a matrix library's solution of all parts' equations: %s", (mix) => {
  it("has the same force in every joint, without a shaft", () => {
    for (let seed = 100; seed < 130; seed++) {
      const found = randomCase(seed, mix);
      if (!found?.loads) continue;
      const { corner, carrier } = found;
      const put = corner.side === "left" ? (v: typeof found.load.force_N) => v : mirror;
      const load = { ...found.load, dropLink_N: 0, torque: seed % 2 ? ("free" as const) : ("carrier" as const) };
      const { joints, damper_N, ground } = standCorner(corner, carrier)!.balance(load);
      const theirs = new FreeBodies(corner, carrier, put(ground.at)).solve(load);
      for (const { id, force_N } of joints) {
        if (id.startsWith("damper.")) continue;
        agreesWithin("jointForce", distance(put(force_N), theirs.get(id)!), 0, 1e-6, `seed ${seed} ${id}`);
      }
      agrees("damperForce", Math.abs(damper_N), Math.hypot(...theirs.get("damper")!), 6, `seed ${seed} damper`);
    }
  });
});
