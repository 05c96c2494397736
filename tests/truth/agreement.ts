import { expect, TestRunner } from "vitest";
import type { QuantityId } from "./register.ts";

/** How far a test's figures were from the outside ones: the farthest, and of how many. */
export interface Agreement {
  readonly off: number;
  readonly count: number;
  /** Where in the test's file: lines of the calls. */
  readonly lines: readonly number[];
}

declare module "vitest" {
  interface TaskMeta {
    /** By quantity of the register; the report of the run carries it. */
    agreements?: Partial<Record<QuantityId, Agreement>>;
  }
}

/**
 * What the program states of a quantity of the register is what an outside truth says, to within half of the last of so many
 * decimals, as `toBeCloseTo` counts; how far apart they are goes into the report of the run, and from there into the README.
 */
export function agrees(
  quantity: QuantityId,
  got: number | null | undefined,
  wanted: number,
  digits: number,
  message?: string,
): void {
  agreesWithin(quantity, got, wanted, 0.5 * 10 ** -digits, message);
}

/** The same, to within so much in the quantity's own unit. */
export function agreesWithin(
  quantity: QuantityId,
  got: number | null | undefined,
  wanted: number,
  within: number,
  message?: string,
): void {
  const off = Math.abs((got ?? Number.NaN) - wanted);
  note(quantity, off);
  expect(
    off <= within,
    `${message ? `${message}: ` : ""}${quantity} is ${got}, wanted ${wanted} within ${within}`,
  ).toBe(true);
}

/** The same of what has no amount: names, counts, verdicts. */
export function agreesOn(quantity: QuantityId, got: unknown, wanted: unknown): void {
  expect(got, quantity).toEqual(wanted);
  note(quantity, 0);
}

/** Several numbers of one result, or vectors of numbers, each to within so much in its own unit. */
export function agreesEach<T extends object>(
  quantity: QuantityId,
  got: T | null | undefined,
  wanted: { readonly [K in keyof T]?: number | readonly number[] },
  within: number,
): void {
  for (const [key, value] of Object.entries(wanted) as [keyof T & string, number | readonly number[]][]) {
    const found = got?.[key];
    const [ours, theirs] = [[found].flat(), [value].flat()];
    expect(ours.length, `${quantity}, ${key}`).toBe(theirs.length);
    for (const [i, one] of theirs.entries()) agreesWithin(quantity, ours[i] as number, one, within, key);
  }
}

function note(quantity: QuantityId, off: number): void {
  const test = TestRunner.getCurrentTest();
  if (!test) throw new Error(`${quantity} is held outside of a test`);
  test.meta.agreements ??= {};
  const all = test.meta.agreements;
  const { off: before, count, lines } = all[quantity] ?? { off: 0, count: 0, lines: [] };
  const line = lineOfCall();
  all[quantity] = {
    off: Math.max(before, off),
    count: count + 1,
    lines: lines.includes(line) ? lines : [...lines, line],
  };
}

/** Of the first caller outside of this file; 0: not to be told. */
function lineOfCall(): number {
  for (const frame of (new Error().stack ?? "").split("\n").slice(1)) {
    if (frame.includes("truth/agreement.ts")) continue;
    return Number(/:(\d+):\d+\)?$/.exec(frame)?.[1] ?? 0);
  }
  return 0;
}
