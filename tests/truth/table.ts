// Writes the README's table of quantities: `node --import tsx tests/truth/table.ts` runs the tests of the register and takes the agreement
// that they reached. `--from REPORT` takes a run that was reported before, `--check REPORT` only compares (1: the table is not true).
import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { comparisons } from "./compared.ts";
import {
  faultsOfAgreements,
  faultsOfComparisons,
  faultsOfTable,
  type Report,
  reachedIn,
  tableIn,
  tableOf,
  withTable,
} from "./readme.ts";
import { ROWS } from "./register.ts";
import { withStated } from "./stated.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const README = `${root}README.md`;
const [what, path] = process.argv.slice(2);

if (what !== undefined && (!["--from", "--check"].includes(what) || path === undefined)) {
  console.error("table.ts takes nothing, --from REPORT or --check REPORT");
  process.exit(2);
}
const report = JSON.parse(readFileSync(path ?? runTests(), "utf8")) as Report;
const reached = reachedIn(report);
const readme = readFileSync(README, "utf8");
const uncompared = faultsOfComparisons(withStated(comparisons), reached);
if (what === "--check") {
  const faults = [...faultsOfTable(tableIn(readme)), ...faultsOfAgreements(tableIn(readme), reached), ...uncompared];
  for (const fault of faults) console.error(fault);
  if (faults.length > 0)
    console.error("The README's table of quantities is not true: node --import tsx tests/truth/table.ts");
  else console.log(`${ROWS.length} quantities agree with what is outside, as the README says`);
  process.exit(faults.length > 0 ? 1 : 0);
}
for (const fault of uncompared) console.error(fault);
writeFileSync(README, withTable(readme, tableOf(reached)));
if (uncompared.length > 0) process.exit(1);

/** The tests that the register names, their report as JSON; ends with 1 where one fails. */
function runTests(): string {
  mkdirSync(`${root}.cache`, { recursive: true });
  const output = `${root}.cache/quantities.json`;
  const files = [...new Set(ROWS.map(([, { file }]) => file))];
  const run = ["node_modules/vitest/vitest.mjs", "run", "--project", "unit", "--reporter=dot", "--reporter=json"];
  const { status } = spawnSync(process.execPath, [...run, `--outputFile.json=${output}`, ...files], {
    cwd: root,
    stdio: "inherit",
  });
  if (status !== 0) process.exit(1);
  return output;
}
