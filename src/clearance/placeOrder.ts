/**
 * The places of a grid in an order in which each is one step from the one before it, which is what a PlaceSearch is quick
 * with: along the first axis, back again one step further along the second, and so on through the third. Numbers of
 * places: x + counts[0]·(y + counts[1]·z). A run of it, given to another thread, is such an order too.
 */
export function snakeOrder(counts: readonly [number, number, number]): Uint32Array {
  const [countX, countY, countZ] = counts;
  const order = new Uint32Array(countX * countY * countZ);
  for (let i = 0; i < order.length; i++) {
    const row = Math.floor(i / countX);
    const z = Math.floor(row / countY);
    const y = folded(row - z * countY, countY, z);
    const x = folded(i - row * countX, countX, row);
    order[i] = x + countX * (y + countY * z);
  }
  return order;
}

/** The step-th place along an axis that is walked to and fro, on its turn-th walk. */
function folded(step: number, count: number, turn: number): number {
  return turn % 2 === 0 ? step : count - 1 - step;
}
