import { parentPort } from "node:worker_threads";
import { type RoomRequest, RoomRun } from "../../src/studies/room/room.ts";
import type { Share } from "../../src/studies/stopped.ts";

type Asked = { readonly ready: Omit<RoomRequest, "meshFiles">; readonly share: Share } | { readonly go: true };

/** A share of a room map: made ready (and warm, by a coarser map) on the first message, asked on the second. */
let run: RoomRun | null = null;

parentPort?.on("message", (asked: Asked) => {
  if ("ready" in asked) {
    const request = { ...asked.ready, meshFiles: new Map() };
    const { region } = request;
    const coarse = new RoomRun({ ...request, region: { ...region, step_mm: 4 * region.step_mm } });
    while (coarse.next());
    run = new RoomRun(request, asked.share);
  } else {
    while (run?.next());
  }
  parentPort?.postMessage("done");
});
