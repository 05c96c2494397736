import { expect } from "vitest";

/** Far below what anybody measures, and above what is left of a tie between two triangles that share the nearest point. */
const ALIKE = 1e-9;

/** The same values throughout, numbers to 1e-9. */
export function expectAlike(found: unknown, wanted: unknown): void {
  expect(differences(found, wanted, "")).toEqual([]);
}

function differences(found: unknown, wanted: unknown, path: string): string[] {
  if (typeof found === "number" && typeof wanted === "number") {
    return Object.is(found, wanted) || Math.abs(found - wanted) <= ALIKE ? [] : [`${path}: ${found}, not ${wanted}`];
  }
  if (typeof found !== "object" || typeof wanted !== "object" || !found || !wanted) {
    return Object.is(found, wanted) ? [] : [`${path}: ${String(found)}, not ${String(wanted)}`];
  }
  const [a, b] = [new Map(Object.entries(found)), new Map(Object.entries(wanted))];
  return [...new Set([...a.keys(), ...b.keys()])].flatMap((key) =>
    differences(a.get(key), b.get(key), `${path}/${key}`),
  );
}
