// `npm run bench [-- --only NAME]`: speed as it is on this machine; what counts is the ratio to the peer run in the same rounds.
import { benchClearance } from "./clearance.ts";
import { benchCorner } from "./corner.ts";
import { benchDragging } from "./dragging.ts";
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
const only = process.argv.indexOf("--only");
const wanted = only < 0 ? Object.keys(PARTS) : [process.argv[only + 1] ?? ""];
for (const name of wanted) {
  const part = PARTS[name];
  if (!part) {
    console.error(`--only takes one of ${Object.keys(PARTS).join(", ")}, not "${name}"`);
    process.exit(2);
  }
  say(part.title);
  await part.run(say);
  say("");
}
