import { expect, it } from "vitest";
import { VerdictGathering } from "../../src/work/verdictGathering.ts";

const swept = (index: number) => [index, {}] as never;

function gathering(workers: number) {
  const told: [number, number][] = [];
  const verdicts = new VerdictGathering(workers, (sweeps, carried) => {
    told.push([sweeps.length, carried.length]);
    return Promise.reject(new Error("stopped meanwhile"));
  });
  return { told, verdicts };
}

it("concludes once, when every worker has told and something is carried", async () => {
  const { told, verdicts } = gathering(2);
  verdicts.take([swept(0), swept(2)], []);
  expect(told).toEqual([]);
  verdicts.take([swept(1)], [[3, 20]]);
  expect(told).toEqual([[3, 1]]);
});

it("leaves it to the whole check where nothing is carried, or the whole check is there", () => {
  const nothing = gathering(1);
  nothing.verdicts.take([swept(0)], []);
  expect(nothing.told).toEqual([]);
  const late = gathering(1);
  late.verdicts.isOver = true;
  late.verdicts.take([], [[0, 20]]);
  expect(late.told).toEqual([]);
});
