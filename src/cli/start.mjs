// `npm start`: installs what is missing, builds what has changed, serves the app on this machine only.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));
const PORT = 4620;

if (Number(process.versions.node.split(".")[0]) < 20) {
  console.error(`Elbowroom needs Node 20 or later; this is ${process.version}. Get it from nodejs.org and try again.`);
  process.exit(1);
}

installPackages();
buildApp();
const { preview } = await import("vite");
const server = await preview({
  root: join(root, "src/app"),
  configFile: join(root, "vite.config.ts"),
  logLevel: "warn",
  preview: { host: "127.0.0.1", port: Number(process.env.PORT ?? PORT) },
});
const address = server.resolvedUrls?.local[0] ?? `http://127.0.0.1:${PORT}/`;
console.log(`\n  Elbowroom is at ${address}\n  It is served to this machine only. Stop it with Ctrl+C.\n`);

function installPackages() {
  if (missingPackages() === 0) return;
  console.log("Installing packages (once) …");
  run("npm", ["ci", "--include=dev", "--no-audit", "--no-fund", "--loglevel=error"]);
}

/** How many packages of the lock file are not there in its version; optional ones belong to other machines. */
function missingPackages() {
  const wanted = Object.entries(packagesOf("package-lock.json")).filter(([name, { optional }]) => name && !optional);
  const installed = existsSync(join(root, "node_modules/.package-lock.json"))
    ? packagesOf("node_modules/.package-lock.json")
    : {};
  return wanted.filter(([name, { version }]) => installed[name]?.version !== version).length;
}

function packagesOf(file) {
  return JSON.parse(readFileSync(join(root, file), "utf8")).packages;
}

function buildApp() {
  const stamp = join(root, ".cache/built");
  const sources = hashOfSources();
  if (existsSync(join(root, "dist/index.html")) && existsSync(stamp) && readFileSync(stamp, "utf8") === sources) return;
  console.log("Building the app …");
  run(process.execPath, [join(root, "node_modules/vite/bin/vite.js"), "build", "--logLevel", "warn"], {
    NODE_ENV: "production",
  });
  mkdirSync(join(root, ".cache"), { recursive: true });
  writeFileSync(stamp, sources);
}

function hashOfSources() {
  const hash = createHash("sha256");
  const files = [...listFiles(join(root, "src")), ...listFiles(join(root, "scenes"))];
  for (const file of [...files, join(root, "package-lock.json"), join(root, "vite.config.ts")]) {
    hash.update(file.slice(root.length)).update(readFileSync(file));
  }
  return hash.digest("hex");
}

function listFiles(folder) {
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
    .sort();
}

function run(command, args, env = {}) {
  const shell = process.platform === "win32" && command === "npm";
  const { status, error } = spawnSync(command, args, {
    cwd: root,
    stdio: ["ignore", "inherit", "inherit"],
    env: { ...process.env, ...env },
    shell,
  });
  if (status === 0) return;
  console.error(error ? String(error.message) : `${command} ${args[0]} stopped with status ${status}`);
  process.exit(1);
}
