// `npm run audit`: known weaknesses of what is shipped. A registry that keeps no such list is told and passed over.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

/**
 * What the registry's answer means: `[passes, what to say]`. Weaknesses that are high or critical do not pass; lesser ones are told.
 * @param {string} answer what `npm audit --json` printed
 * @returns {readonly [boolean, string]}
 */
export function judgeAudit(answer) {
  let found;
  try {
    found = JSON.parse(answer)?.metadata?.vulnerabilities;
  } catch {
    found = undefined;
  }
  if (!found || typeof found.total !== "number")
    return [true, "the registry gave no list of weaknesses: nothing was audited"];
  const grave = (found.high ?? 0) + (found.critical ?? 0);
  const counts = ["critical", "high", "moderate", "low", "info"]
    .map((name) => `${found[name] ?? 0} ${name}`)
    .join(", ");
  return [grave === 0, `weaknesses known in what is shipped: ${counts}`];
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { stdout } = spawnSync("npm", ["audit", "--omit=dev", "--json", "--fetch-retries=0", "--fetch-timeout=20000"], {
    cwd: fileURLToPath(new URL("..", import.meta.url)),
    encoding: "utf8",
    shell: process.platform === "win32",
    timeout: 60_000,
  });
  const [passes, told] = judgeAudit(stdout ?? "");
  console.log(`audit: ${told}`);
  process.exit(passes ? 0 : 1);
}
