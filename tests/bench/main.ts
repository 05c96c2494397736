// `npm run bench [-- --only NAME]`: speed as it is on this machine; what counts is the ratio to the peer run in the same rounds.
// `-- --save FILE` keeps these ratios of some jobs, `-- --compare FILE` holds them against kept ones: 1 where a job got slower.
import { benchClearance } from "./clearance.ts";
import { benchCorner } from "./corner.ts";
import { benchDragging } from "./dragging.ts";
import { keepSpeed } from "./keep.ts";
import { benchKernels } from "./kernels.ts";
import { benchKinematics } from "./kinematics.ts";
import { benchLoads } from "./loads.ts";
import { benchLog } from "./log.ts";
import { benchPlaces } from "./places.ts";
import { benchScale } from "./scale.ts";
import { benchScans } from "./scans.ts";
import { benchScenes } from "./scenes.ts";
import { benchStudies } from "./studies.ts";

type Say = (line: string) => void;

/** In the order in which they run. */
const PARTS: Readonly<Record<string, { title: string; run: (say: Say) => Promise<void> }>> = {
  kinematics: {
    title: "Kinematics, one core",
    run: async (say) => (await benchKinematics()).forEach(say),
  },
  loads: { title: "All load cases over the whole travel of every scene, one thread", run: benchLoads },
  kernels: {
    title: "Distances by the compiled kernel and by the TypeScript one",
    run: async (say) => benchKernels(say),
  },
  clearance: {
    title: "Sweeps and patches of a whole corner, one thread",
    run: async (say) => (await benchClearance()).forEach(say),
  },
  corner: { title: "Distances and sweeps of a synthetic corner beside general-purpose libraries", run: benchCorner },
  places: { title: "Ten thousand places of a pivot, on two threads", run: benchPlaces },
  studies: { title: "Room maps beside the whole check of each place, one thread", run: benchStudies },
  scale: { title: "Cost of one pair against its triangles, one thread", run: benchScale },
  scans: { title: "Two scans of a million triangles beside 300 parts, one thread", run: benchScans },
  log: { title: "A build log of 200 cards opened in a real browser", run: benchLog },
  dragging: { title: "A hard point pulled in a real browser", run: benchDragging },
  scenes: {
    title: "Check of every scene, one thread, and distances beside general-purpose libraries",
    run: benchScenes,
  },
};

const say: Say = (line) => console.log(line);
const [how, what] = process.argv.slice(2);
if (how === "--save" || how === "--compare") {
  if (!what) fail(`${how} takes a file, such as tests/bench/baseline.json`);
  try {
    process.exit((await keepSpeed(how === "--save" ? "save" : "compare", what, say)) ? 0 : 1);
  } catch (error) {
    fail(error instanceof Error ? error.message : String(error));
  }
}
if (how !== undefined && how !== "--only") fail(`takes --only NAME, --save FILE or --compare FILE, not "${how}"`);
const wanted = how === undefined ? Object.keys(PARTS) : [what ?? ""];
for (const name of wanted) {
  const part = PARTS[name];
  if (!part) fail(`--only takes one of ${Object.keys(PARTS).join(", ")}, not "${name}"`);
  say(part.title);
  await part.run(say);
  say("");
}

function fail(message: string): never {
  console.error(message);
  process.exit(2);
}
