import { expect, it } from "vitest";
import { PlaceMap } from "../../../src/clearance/placeMap.ts";
import { randomFrom } from "../kernel/meshes.ts";

it("finds each vertex by its place, as a Map of names does; two zeros are one place (seed 6)", () => {
  const random = randomFrom(6);
  const positions: number[] = [];
  const map = new PlaceMap(positions);
  const truth = new Map<string, number>();
  // few values, so that places come again, zeros of both signs among them
  const values = [0, -0, 0.1, -0.1, 1e-12, 1e9, ...Array.from({ length: 12 }, () => 400 * random() - 200)];
  const any = () => values[Math.floor(random() * values.length)]!;
  for (let i = 0; i < 20_000; i++) {
    const [x, y, z] = [any(), any(), any()];
    const name = `${x},${y},${z}`;
    expect(map.get(x, y, z)).toBe(truth.get(name) ?? -1);
    if (truth.has(name)) continue;
    const vertex = positions.length / 3;
    positions.push(x, y, z);
    map.add(vertex);
    truth.set(name, vertex);
  }
  expect(truth.size).toBeGreaterThan(2000);
});
