import { describe, expect, it } from "vitest";
import { snakeOrder } from "../../../src/clearance/placeOrder.ts";

describe("the order of a grid's places", () => {
  it.each([
    [1, 1, 1],
    [7, 1, 1],
    [4, 3, 1],
    [5, 4, 3],
    [4, 4, 4],
    [1, 6, 5],
  ] as const)("goes once to each of %i x %i x %i, one step at a time", (...counts) => {
    const order = snakeOrder(counts);
    expect(order.length).toBe(counts[0] * counts[1] * counts[2]);
    expect(new Set(order).size).toBe(order.length);
    const at = (place: number) => [
      place % counts[0],
      Math.floor(place / counts[0]) % counts[1],
      Math.floor(place / (counts[0] * counts[1])),
    ];
    for (let i = 1; i < order.length; i++) {
      const [from, to] = [at(order[i - 1]!), at(order[i]!)];
      expect(from.reduce((sum, value, k) => sum + Math.abs(value - to[k]!), 0)).toBe(1);
    }
  });
});
