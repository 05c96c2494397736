import { expect, it } from "vitest";
import { EdgeMap } from "../../../src/clearance/edgeMap.ts";
import { randomFrom } from "../kernel/meshes.ts";

it("keeps the last number of each edge, whichever way round it is named, as a Map of names does (seed 5)", () => {
  const random = randomFrom(5);
  const map = new EdgeMap();
  const truth = new Map<string, number>();
  const nameOf = (a: number, b: number) => [a, b].sort((p, q) => p - q).join();
  for (let i = 0; i < 20_000; i++) {
    const [a, b] = [Math.floor(random() * 300), Math.floor(random() * 300)];
    expect(map.get(a, b)).toBe(truth.get(nameOf(a, b)) ?? -1);
    map.set(a, b, i);
    truth.set(nameOf(a, b), i);
    expect(map.get(b, a)).toBe(i);
  }
  for (const [name, value] of truth) {
    const [a, b] = name.split(",").map(Number) as [number, number];
    expect(map.get(a, b)).toBe(value);
  }
});
