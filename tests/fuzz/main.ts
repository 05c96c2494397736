// `npm run fuzz -- [--cases N] [--seed N] [--door NAME] [--from N]`, `--saved` for the saved cases; with `--show N` the case of that number on standard output.
import { parseArgs } from "node:util";
import { caseOf } from "./caseOf.ts";
import { DOORS } from "./doors.ts";
import { drawnJobs, openCases, savedJobs } from "./watch.ts";

// what is found is told as it comes
process.env.FUZZ_TELL = "1";
const { values } = parseArgs({
  options: {
    cases: { type: "string", default: "1000" },
    seed: { type: "string" },
    door: { type: "string" },
    from: { type: "string", default: "0" },
    show: { type: "string" },
    saved: { type: "boolean", default: false },
  },
});
const seed = Number(values.seed ?? Date.now() % 1_000_000_000);
const doors = DOORS.filter(({ name }) => values.door === undefined || name === values.door);

if (values.show !== undefined) {
  process.stdout.write(caseOf(doors[0]!, seed, Number(values.show)).content);
} else {
  const jobs = values.saved ? savedJobs(doors) : drawnJobs(Number(values.cases), doors, Number(values.from));
  const told = await openCases(seed, jobs);
  console.log(`seed ${seed}`);
  for (const [door, { read, refused }] of told.doors) console.log(`${door}: ${read} read, ${refused} refused`);
  if (told.anew > 0) console.log(`${told.anew} processes begun anew, since what many cases leave had added up`);
  console.log(`${told.found.length} found`);
  process.exitCode = told.found.length > 0 ? 1 : 0;
}
