import { snakeOrder } from "../../clearance/placeOrder.ts";
import type { PlaceGrid } from "./region.ts";

/** Neighbouring places of one level, asked one after another by whoever takes them. */
export interface Block {
  /** 0: every place; 1: every second along each direction, and so on. The coarsest comes first. */
  readonly level: number;
  readonly places: Uint32Array;
}

/** Places along the longest direction at the coarsest level, at most. */
const COARSEST = 8;
/**
 * Each block begins with nothing known, so that its answers are the same to the last bit whoever asks it; that costs as much as
 * some twenty places.
 */
const BLOCK = 256;

/**
 * The places of a grid, coarse to fine: of each level, neighbours after each other, those that no coarser one has, in blocks. Levels
 * count from where the point is now.
 */
export function blocksOf(grid: PlaceGrid): Block[] {
  let coarsest = 0;
  while (Math.max(...grid.counts) / 2 ** coarsest > COARSEST) coarsest++;
  const blocks: Block[] = [];
  const order = snakeOrder(grid.counts);
  const levels: number[][] = Array.from({ length: coarsest + 1 }, () => []);
  for (const place of order) levels[levelOf(grid.stepsOf(place), coarsest)]!.push(place);
  for (let level = coarsest; level >= 0; level--) {
    const places = levels[level]!;
    for (let at = 0; at < places.length; at += BLOCK) {
      blocks.push({ level, places: Uint32Array.from(places.slice(at, at + BLOCK)) });
    }
  }
  return blocks;
}

function levelOf(steps: readonly number[], coarsest: number): number {
  let level = 0;
  while (level < coarsest && steps.every((step) => step % 2 ** (level + 1) === 0)) level++;
  return level;
}
