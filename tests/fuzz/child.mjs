// A process of its own, so that a case that takes it down takes nothing else with it. Its lines of JSON are read by watch.ts.
import { writeSync } from "node:fs";
import { Worker } from "node:worker_threads";

/** A case that has had so much of the processor hangs; on a loaded machine it may have waited far longer. */
const MOST_CPU_US = 5_000_000;
/** For loading what cases are opened with. */
const BEGIN_CPU_US = 20_000_000;
const LOOK_EVERY_MS = 50;

const { seed, jobs, isSaved, progress } = JSON.parse(process.argv[2]);
const say = (line) => writeSync(1, `${JSON.stringify(line)}\n`);

for (const { door, from, to } of jobs) {
  for (let next = from; next < to; ) next = await runFrom(door, next, to);
}
say({ kind: "end" });

/** Until all are opened or the thread has gone: the number of the next case. */
function runFrom(door, from, to) {
  const now = new SharedArrayBuffer(4);
  const at = new Int32Array(now);
  at[0] = -1;
  const worker = new Worker(new URL("./worker.mjs", import.meta.url), {
    workerData: { door, seed, from, to, isSaved, now, progress },
    resourceLimits: { maxOldGenerationSizeMb: 900 },
  });
  let index = -1;
  let since = cpu();
  let ending = null;
  let isDone = false;
  const look = setInterval(() => {
    const current = Atomics.load(at, 0);
    if (current !== index) [index, since] = [current, cpu()];
    else if (cpu() - since > (index < 0 ? BEGIN_CPU_US : MOST_CPU_US)) {
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
      if (isDone) return resolve(to);
      const gone = Math.max(from, Atomics.load(at, 0));
      ending ??= { kind: "hang", what: "what it waits for never comes" };
      say({ ...ending, door, seed, index: gone });
      resolve(gone + 1);
    });
  });
}

function cpu() {
  const { user, system } = process.cpuUsage();
  return user + system;
}
