import { readScene } from "../../src/scene/read.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { type RandomCorner, randomCorner } from "./generator.ts";

/**
 * Which corners a run draws: CORNERS_FROM is the number of the first (the seed of all its choices), CORNERS_COUNT how many. A fault names the number of
 * its corner; CORNERS_FROM with that number and CORNERS_COUNT=1 draw it again.
 */
export function lotOf(usualFrom: number, usualCount: number): { readonly from: number; readonly count: number } {
  const { CORNERS_FROM, CORNERS_COUNT } = process.env;
  return { from: Number(CORNERS_FROM ?? usualFrom), count: Number(CORNERS_COUNT ?? usualCount) };
}

/** As long as a machine that does ten things at once may take: nothing is timed. */
export const PATIENCE = { timeout: 3_600_000 };

export interface ReadCorner extends RandomCorner {
  readonly scene: Scene;
}

/** The corner of a number as a scene file that was read. */
export function readCornerFile(number: number): ReadCorner {
  const drawn = randomCorner(number);
  return { ...drawn, scene: resolveScene(readScene(JSON.stringify(drawn.document), `${drawn.document.title}.json`)) };
}

const MOST_FAULTS = 20;

/** Asks each corner of the lot for its faults; stops where there are many. */
export function faultsOfLot(
  { from, count }: { readonly from: number; readonly count: number },
  faultsOf: (corner: ReadCorner) => readonly string[],
): string[] {
  const faults: string[] = [];
  for (let number = from; number < from + count && faults.length < MOST_FAULTS; number++) {
    const corner = readCornerFile(number);
    for (const fault of faultsOf(corner)) faults.push(`corner ${number} (${corner.mix}): ${fault}`);
  }
  return faults;
}
