import { createWorkshop } from "../../work/client.ts";
import type { MeshKeeper } from "../../work/protocol.ts";
import { asBuiltStudy, pullStudy } from "../asBuilt/asBuiltStore.ts";
import { followHand } from "../corner/shownPoses.ts";
import { startEnvelopes } from "../envelope/envelopeEngine.ts";
import { followFilePlace } from "../files/filePlace.ts";
import { serveFiles } from "../files/fileRoom.ts";
import { startGear } from "../gear/gearEngine.ts";
import { startJig } from "../jig/jigEngine.ts";
import { startLoads } from "../loads/loadsEngine.ts";
import { startGaps } from "../measure/gapsNow.ts";
import { movesStudy } from "../moves/movesStore.ts";
import { keepAddress, projectInAddress } from "../projects/address.ts";
import { openSample, SAMPLES } from "../projects/samples.ts";
import { desk } from "../projects/theDesk.ts";
import { keepWatch } from "../projects/watch.ts";
import { startRoom } from "../room/roomEngine.ts";
import { readyRooms } from "../room/roomReady.ts";
import { serviceStudy } from "../service/serviceStore.ts";
import { isSetupOpen } from "../shell/places.ts";
import { togetherStudy } from "../together/togetherStore.ts";
import { type Engine, startEngine } from "./engine.ts";
import { startPatches } from "./patchEngine.ts";
import { app } from "./useApp.ts";

let running: Engine | null = null;
let pool: MeshKeeper | null = null;

/** Brings back the project that was open, or opens the first sample scene, and starts what computes. */
export async function begin(): Promise<void> {
  await desk.start(projectInAddress());
  app.setState({ ready: true });
  const workshop = createWorkshop(undefined, (workAnew) => app.setState({ workAnew }));
  pool = workshop;
  running = startEngine(app, workshop);
  followHand(app);
  startPatches(app, workshop);
  startGaps(app, workshop);
  startEnvelopes(app, workshop);
  startLoads(app, workshop);
  startGear(app, workshop);
  startRoom(app, workshop);
  readyRooms(app, workshop);
  serveFiles(workshop);
  movesStudy.serve(app, workshop.moves);
  startJig(app, workshop);
  asBuiltStudy.serve(app, workshop.asBuilt);
  pullStudy.serve(app, workshop.weldPull);
  togetherStudy.serve(app, workshop.together);
  serviceStudy.serve(app, ({ document, jobs }, files, onProgress) =>
    workshop.service({ document, jobs }, files, onProgress),
  );
  const first = SAMPLES[0];
  if (app.getState().document === null && first) await openSample(first);
  if (isSetupOpen(app.getState().document)) app.getState().setPlace("setup");
  keepAddress(desk);
  followFilePlace();
  keepWatch();
}

export function stopCheck(): void {
  running?.stopCheck();
}

export function checkAgain(): void {
  running?.checkAgain();
}

/** A mesh that was made outside the pool is not made again there. */
export const keepMesh: MeshKeeper["keepMesh"] = (...made) => pool?.keepMesh(...made);
