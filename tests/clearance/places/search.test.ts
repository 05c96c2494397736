import { describe, expect, it } from "vitest";
import type { PlaceWorst } from "../../../src/clearance/placeSearch.ts";
import { randomFrom } from "../kernel/meshes.ts";
import { bruteForce, type Corner, type Kind, randomCorner, searchOf } from "./corners.ts";

const SEED = 90210;
/** Sampled depths take milliseconds each, so there are fewer of those. */
const CORNERS: Readonly<Record<Kind, number>> = { convex: 40, scans: 8, holding: 6 };
const PLACES = 25;
const CAP_mm = 25;

/** Two clearances measured in the same pose up to rounding, as exactly as the sweep's gauge measures them. */
function isSame(kind: Kind, told: number, measured: number): boolean {
  const off = Math.abs(told - measured);
  if (measured > 0) return off <= 1e-9;
  // depth over convex pieces: 1e-7 of it and 1e-10 of their size (convex.ts); sampled: see depthDeepest.ts
  const sampled = kind === "convex" ? 0 : Math.min(1.15, Math.max(0.05, -0.1 * measured));
  return off <= 1e-5 + sampled;
}

/** By brute force: the smallest clearance of every pair in one place. */
function smallestOf(clearances: readonly number[][]): number[] {
  return clearances.map((states) => Math.min(...states));
}

function shuffled<T>(items: readonly T[], random: () => number): T[] {
  const mixed = [...items];
  for (let i = mixed.length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    [mixed[i], mixed[j]] = [mixed[j]!, mixed[i]!];
  }
  return mixed;
}

describe.each<Kind>(["convex", "scans", "holding"])("places of random corners (%s)", (kind) => {
  const random = randomFrom(SEED);
  // a share of a random corner's pairs has a joint, whose excuse makes their depth a sampled one
  const corners = Array.from({ length: CORNERS[kind] }, () => randomCorner(random, kind, PLACES));
  const measured = corners.map(bruteForce);

  const eachPlace = (check: (corner: Corner, clearances: readonly number[][], i: number, k: number) => void): void => {
    corners.forEach((corner, i) => {
      measured[i]!.forEach((clearances, k) => {
        check(corner, clearances, i, k);
      });
    });
  };
  const isSamePair = (corner: Corner, pair: number, told: number, value: number): boolean =>
    isSame(corner.pairs[pair]!.excuses.length > 0 ? "scans" : kind, told, value);

  it("cover what may happen: apart, overlapping, near and far", () => {
    const all = measured.flat(3);
    expect(all.filter((clearance) => clearance < 0).length).toBeGreaterThan(all.length / 25);
    expect(all.filter((clearance) => clearance > 0 && clearance < 5).length).toBeGreaterThan(all.length / 50);
    expect(all.filter((clearance) => clearance > CAP_mm).length).toBeGreaterThan(all.length / 25);
  });

  it("have the worst that brute force finds, in the pair and the state that are told", () => {
    const searches = corners.map(searchOf);
    eachPlace((corner, clearances, i, k) => {
      const place = corner.places[k]!;
      const told = searches[i]!.worst(place);
      const { required_mm } = corner.pairs[told.pair]!;
      const name = `seed ${SEED}, corner ${i}, place ${k}, pair ${told.pair}: ${told.margin_mm}`;
      const there = clearances[told.pair]![told.state - place.first]!;
      expect(isSamePair(corner, told.pair, told.margin_mm + required_mm, there), name).toBe(true);
      smallestOf(clearances).forEach((value, pair) => {
        const least = told.margin_mm + corner.pairs[pair]!.required_mm;
        expect(value > least || isSamePair(corner, pair, least, value), `${name}, missed ${pair}: ${value}`).toBe(true);
      });
    });
  });

  it("have the smallest of every pair that brute force finds, up to the cap", () => {
    const searches = corners.map(searchOf);
    eachPlace((corner, clearances, i, k) => {
      const told = new Float64Array(corner.pairs.length);
      searches[i]!.everyPair(corner.places[k]!, told, { below_mm: CAP_mm });
      smallestOf(clearances).forEach((value, pair) => {
        const name = `seed ${SEED}, corner ${i}, place ${k}, pair ${pair}: ${told[pair]}, measured ${value}`;
        const capped = Math.min(CAP_mm, value);
        expect(told[pair] === capped || isSamePair(corner, pair, told[pair]!, capped), name).toBe(true);
      });
    });
  });

  it("have the same worst in any order of the places, and between limits", () => {
    corners.forEach((corner, i) => {
      const orders = [corner.places, [...corner.places].reverse(), shuffled(corner.places, random)];
      const found = orders.map((places) => {
        const search = searchOf(corner);
        const told = new Map(places.map((place) => [place, search.worst(place)]));
        return corner.places.map((place) => told.get(place)!);
      });
      const first = found[0]!;
      for (const told of found) {
        told.forEach(({ margin_mm }, k) => {
          expect(Math.abs(margin_mm - first[k]!.margin_mm), `seed ${SEED}, corner ${i}, place ${k}`).toBeLessThan(1e-9);
        });
      }
      for (const limits of [{ below_mm: 5 }, { above_mm: 0 }, { below_mm: 3, above_mm: -4 }]) {
        const search = searchOf(corner);
        corner.places.forEach((place, k) => {
          const told = search.worst(place, limits);
          holdsBetween(told, first[k]!, limits, `seed ${SEED}, corner ${i}, place ${k}, ${JSON.stringify(limits)}`);
        });
      }
    });
  });
});

function holdsBetween(
  told: PlaceWorst,
  exact: PlaceWorst,
  { below_mm = Infinity, above_mm = -Infinity }: { below_mm?: number; above_mm?: number },
  name: string,
): void {
  if (exact.margin_mm >= below_mm + 1e-9) {
    expect(told.margin_mm, name).toBe(below_mm);
    expect([told.pair, told.state], name).toEqual([-1, -1]);
  } else if (exact.margin_mm <= above_mm) {
    // what is told may be too high, never by so much that the place looks better than the limit
    expect(told.margin_mm, name).toBeLessThanOrEqual(above_mm + 1e-9);
    expect(told.margin_mm, name).toBeGreaterThanOrEqual(exact.margin_mm - 1e-9);
  } else {
    expect(Math.abs(told.margin_mm - Math.min(below_mm, exact.margin_mm)), name).toBeLessThan(1e-9);
  }
}
