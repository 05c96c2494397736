import { expect, it } from "vitest";
import { diceOf } from "./dice.ts";
import { faultsOfMirror, faultsOfRigidMotion } from "./images.ts";
import { faultsOfLot, PATIENCE } from "./lot.ts";
import { faultsOfMotion, faultsOfMounts, noMotion, runCorner } from "./motion.ts";

/** Of a hundred corners so many may be refused (mounts moved beyond what the parts reach): more would test little. */
const MOST_REFUSED_SHARE = 0.03;

/** The tests of how the corners of a lot move. */
export function holdMotion(lot: { readonly from: number; readonly count: number }): void {
  const numbers = `corners ${lot.from} to ${lot.from + lot.count - 1}`;

  it(`${numbers}: raw equations, a second solver, locks that are locks`, PATIENCE, () => {
    const tally = noMotion();
    const faults = faultsOfLot(lot, ({ scene }) => {
      const ran = runCorner(scene, tally.refused);
      return ran ? [...faultsOfMotion(ran, tally), ...faultsOfMounts(ran, tally)] : [];
    });
    console.info(`${numbers}: ${JSON.stringify(tally)}`);
    expect(faults).toEqual([]);
    const refused = Object.values(tally.refused).reduce((sum, count) => sum + count, 0);
    expect(refused).toBeLessThanOrEqual(Math.ceil(lot.count * MOST_REFUSED_SHARE));
  });

  it(`${numbers}: the mirror's image and the whole car moved`, PATIENCE, () => {
    const faults = faultsOfLot(lot, ({ scene, number }) => {
      const ran = runCorner(scene, {});
      // how the powertrain is put in its place is told about the car's own axes
      const unplaced = runCorner({ ...scene, powertrain: { ...scene.powertrain, place: null } }, {});
      if (!ran || !unplaced) return [];
      return [...faultsOfMirror(ran), ...faultsOfRigidMotion(unplaced, diceOf(-number))];
    });
    expect(faults).toEqual([]);
  });
}
