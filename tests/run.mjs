// `npm test`: style, types, then every test, real-browser ones included. `--long` adds the long suite.
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { needChromium } from "./chromium.mjs";

const root = fileURLToPath(new URL("..", import.meta.url));
const REPORT = `${root}.cache/tests.json`;
let chromium = null;

if (!existsSync(`${root}node_modules/.package-lock.json`)) {
  step("packages", "npm", ["ci", "--include=dev", "--no-audit", "--no-fund", "--loglevel=error"]);
}
chromium = needChromium();
if (!chromium) {
  console.error(
    "No Chromium found: install Chromium or Chrome (Debian: apt-get install chromium), or set CHROMIUM to its path.",
  );
  process.exit(1);
}

step("style", process.execPath, ["node_modules/@biomejs/biome/bin/biome", "check", "."]);
step("types", process.execPath, ["node_modules/typescript/bin/tsc", "-p", "tsconfig.json"]);

mkdirSync(`${root}.cache`, { recursive: true });
rmSync(REPORT, { force: true });
const projects = ["unit", "dom", "browser", ...(process.argv.includes("--long") ? ["long"] : [])];
const status = run(process.execPath, [
  "node_modules/vitest/vitest.mjs",
  "run",
  ...projects.flatMap((name) => ["--project", name]),
  "--reporter=default",
  "--reporter=json",
  `--outputFile.json=${REPORT}`,
]);
const report = JSON.parse(readFileSync(REPORT, "utf8"));
if (status === 0) {
  step("README's table of quantities", process.execPath, [
    "--import",
    "tsx",
    "tests/truth/table.ts",
    "--check",
    REPORT,
  ]);
}
console.log(`${report.numPassedTests} passed, ${report.numFailedTests} failed`);
process.exit(status || (report.numPassedTests > 0 ? 0 : 1));

function step(name, command, args) {
  const status = run(command, args);
  if (status === 0) return;
  console.error(`${name}: failed`);
  process.exit(1);
}

function run(command, args) {
  return (
    spawnSync(command, args, { cwd: root, stdio: "inherit", env: { ...process.env, CHROMIUM: chromium ?? "" } })
      .status ?? 1
  );
}
