import Module, { type ManifoldToplevel } from "manifold-3d";
import { beforeAll, expect, it } from "vitest";
import {
  drawPairs,
  faultsOfSides,
  faultsOfState,
  faultsOfSweep,
  noClearance,
  prepareOneSide,
  Samples,
} from "./clearance.ts";
import { diceOf } from "./dice.ts";
import { faultsOfLot, PATIENCE } from "./lot.ts";
import { runCorner } from "./motion.ts";

/** Both sides are made of one corner in so many. */
const SIDES_OF_EVERY = 10;

/** The tests of how near to each other the parts of a lot's corners come, so many pairs of each. */
export function holdClearance(lot: { readonly from: number; readonly count: number }, pairs: number): void {
  const numbers = `corners ${lot.from} to ${lot.from + lot.count - 1}`;
  let manifold: ManifoldToplevel;
  beforeAll(async () => {
    manifold = await Module();
    manifold.setup();
  });

  it(
    `${numbers}: clearances against manifold-3d and all triangles, verdicts against samples every 0.1 mm`,
    PATIENCE,
    () => {
      const tally = noClearance();
      const faults = faultsOfLot(lot, ({ scene, meshFiles, number }) => {
        if (!runCorner(scene, {})) return [];
        const prepared = prepareOneSide(scene, meshFiles);
        const samples = new Samples(prepared);
        const dice = diceOf(-number);
        return drawPairs(prepared, pairs, dice).flatMap((pair) => [
          ...faultsOfState(manifold, pair, dice, tally),
          ...faultsOfSweep(pair, samples, tally),
        ]);
      });
      console.info(`${numbers}: ${JSON.stringify(tally)}`);
      expect(faults).toEqual([]);
      if (lot.count < 100) return;
      // the lot is worth something only if all verdicts occur, and depths and gaps
      expect(tally.clash).toBeGreaterThan(tally.pairs / 20);
      expect(tally.tight).toBeGreaterThan(tally.pairs / 50);
      expect(tally.clear).toBeGreaterThan(tally.pairs / 5);
      expect(tally.depths).toBeGreaterThan(lot.count / 20);
    },
  );

  it(`${numbers}: what is told of a pair on the left is told on the right`, PATIENCE, () => {
    // making both sides costs as much as all the rest
    const faults = faultsOfLot(lot, ({ scene, meshFiles, number }) =>
      number % SIDES_OF_EVERY === 0 && runCorner(scene, {}) ? faultsOfSides(scene, meshFiles, diceOf(-number)) : [],
    );
    expect(faults).toEqual([]);
  });
}
