import type { Browser, Page } from "playwright-core";
import { CHORES } from "./chores.ts";
import { Counter, FIGURES, type FigureName, type Sample } from "./figures.ts";
import { type Growth, grows, growthOf } from "./growth.ts";

export interface LongUse {
  readonly rounds: number;
  /** When each sample was taken, in rounds. */
  readonly at: readonly number[];
  readonly samples: readonly Sample[];
}

/** Does the chores over and over until `enough` says so, and counts after each round. */
export async function runLong(
  browser: Browser,
  page: Page,
  enough: (rounds: number) => boolean,
  onSample: (rounds: number, sample: Sample) => void = () => {},
  chores: typeof CHORES = CHORES,
): Promise<LongUse> {
  const counter = await Counter.of(browser, page);
  const at: number[] = [];
  const samples: Sample[] = [];
  let rounds = 0;
  while (!enough(rounds)) {
    for (const [name, chore] of Object.entries(chores)) {
      try {
        await chore(page);
      } catch (error) {
        throw new Error(`round ${rounds + 1}, ${name}: ${(error as Error).message}`, { cause: error });
      }
    }
    rounds++;
    const sample = await counter.sample();
    at.push(rounds);
    samples.push(sample);
    onSample(rounds, sample);
  }
  return { rounds, at, samples };
}

export interface Judged extends Growth {
  readonly name: FigureName;
  readonly first: number;
  readonly last: number;
  readonly grows: boolean;
}

/** Each figure that could be counted, and whether it grows. */
export function judge({ at, samples }: LongUse): Judged[] {
  return (Object.keys(FIGURES) as FigureName[]).flatMap((name) => {
    const values = samples.map((sample) => sample[name]);
    if (values.some((value) => value === null)) return [];
    const numbers = values as number[];
    const growth = growthOf(at, numbers);
    return [{ name, first: numbers[0]!, last: numbers.at(-1)!, ...growth, grows: grows(growth) }];
  });
}

/** The figures as a table in Markdown. */
export function tableOf(judged: readonly Judged[]): string {
  const figure = (value: number) => (Number.isInteger(value) ? String(value) : value.toFixed(1));
  return [
    "| | first | last | mean of the second half | gained over it | scatter | grows |",
    "| --- | --: | --: | --: | --: | --: | --- |",
    ...judged.map(
      ({ name, first, last, mean, gained, scatter, grows: isGrowing }) =>
        `| ${FIGURES[name]} | ${figure(first)} | ${figure(last)} | ${mean.toFixed(1)} | ${gained.toFixed(1)} | ± ${scatter.toFixed(1)} | ${isGrowing ? "yes" : "no"} |`,
    ),
  ].join("\n");
}
