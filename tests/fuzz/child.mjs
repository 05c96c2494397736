// A process of its own, so that a case that takes it down takes nothing else with it. Its lines of JSON are read by watch.ts.
import { writeSync } from "node:fs";
import { Worker } from "node:worker_threads";

/** A case that has had so much of the processor hangs; on a loaded machine it may have waited far longer. */
const MOST_CPU_US = 5_000_000;
/** For loading what cases are opened with. */
const BEGIN_CPU_US = 20_000_000;
const LOOK_EVERY_MS = 50;

const { seed, jobs, progress } = JSON.parse(process.argv[2]);
const say = (line) => writeSync(1, `${JSON.stringify(line)}\n`);

for (let left = jobs; left.length > 0; ) left = await open(left);
say({ kind: "end" });

/** Until all are opened or the thread has gone: what is left to do. One thread for all doors: what they need is loaded once. */
function open(left) {
  const now = new SharedArrayBuffer(16);
  const at = new Int32Array(now);
  at.fill(-1, 0, 2);
  const worker = new Worker(new URL("./worker.mjs", import.meta.url), {
    workerData: { jobs: left, seed, now, progress },
    resourceLimits: { maxOldGenerationSizeMb: 900 },
  });
  let seen = "";
  let since = cpu();
  let ending = null;
  let isDone = false;
  const look = setInterval(() => {
    const current = at.slice(0, 2).join();
    if (current !== seen) [seen, since] = [current, cpu()];
    else if (cpu() - since > (at[1] < 0 ? BEGIN_CPU_US : MOST_CPU_US)) {
      ending ??= { kind: "hang", what: "5 s of processor time" };
      worker.terminate();
    }
  }, LOOK_EVERY_MS);
  return new Promise((resolve) => {
    worker.on("message", (told) => {
      if (told.kind === "done") isDone = true;
      else say(told);
    });
    worker.on("error", (error) => {
      ending ??= { kind: "crash", what: String(error?.stack ?? error).slice(0, 1500) };
    });
    worker.on("exit", () => {
      clearInterval(look);
      if (isDone) return resolve([]);
      const [job, index] = [Math.max(0, at[0]), at[1] < 0 ? left[0].from : at[1]];
      ending ??= { kind: "hang", what: "what it waits for never comes" };
      const { door, isSaved } = left[job];
      say({ kind: "tally", door, read: at[2], refused: at[3] });
      say({ ...ending, door, isSaved, seed, index });
      resolve([{ ...left[job], from: index + 1 }, ...left.slice(job + 1)].filter(({ from, to }) => from < to));
    });
  });
}

function cpu() {
  const { user, system } = process.cpuUsage();
  return user + system;
}
