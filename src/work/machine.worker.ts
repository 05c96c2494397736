import { expose, transfer } from "comlink";
import type { PreparedCheck } from "../check/check.ts";
import { requireWhole } from "../check/unchecked.ts";
import type { Gap } from "../clearance/gap.ts";
import { allRead } from "../geometry/refused.ts";
import type { Solid } from "../geometry/solid.ts";
import { type LoadsReport, reportLoads } from "../loads/report.ts";
import { readyOrRefused } from "../scans/readyMesh.ts";
import type { SceneDocument } from "../scene/document.ts";
import { resolveScene } from "../scene/resolve.ts";
import type { Scene } from "../scene/scene.ts";
import { type RoomRequest, RoomRun } from "../studies/room/room.ts";
import { type Share, StudyStopped, WHOLE } from "../studies/stopped.ts";
import { CheckBoard } from "./checkBoard.ts";
import {
  buffersOfBodies,
  buffersOfContact,
  type DrawnContact,
  drawnBodies,
  drawnContact,
  type SentBody,
} from "./drawn.ts";
import { EnvelopeRoom } from "./envelopeRoom.ts";
import { type GearReport, gearReport } from "./gearReport.ts";
import { holdLife } from "./life.ts";
import "./lines.ts";
import { concludeSweeps, type IndexedSweep, Machine, type Watch } from "./machine.ts";
import type { MeshNames, MeshOrder } from "./meshStore.ts";
import { type Outcome, outcomeOf, StoppedError } from "./outcome.ts";
import { type PeerMessage, Peers } from "./peers.ts";
import { type MadePicture, makePicture, type PictureRequest } from "./pictureRoom.ts";
import type { EnvelopeAnswer, EnvelopeRequest, GapRequest, ModelRequest, PatchRequest, Question } from "./protocol.ts";
import { breathe, everyWhile, PROGRESS_EVERY_MS, TellingPace } from "./rhythm.ts";
import { askRoomShare, frameOfRoom, type RoomFrame, type RoomNews } from "./roomShare.ts";
import { inSharedMemory } from "./sharedMemory.ts";
import { Signals } from "./signals.ts";
import { studyShell } from "./studyShell.ts";
import { SweepDesks, type SweepNews } from "./sweepDesk.ts";
import { ResultTeller, type ToldProgress, type ToldResult } from "./toldResult.ts";
import { TreeExchange } from "./treeExchange.ts";

/** What a worker is told when it is hired. */
export interface Hiring {
  readonly place: number;
  /** Memory of the pool's signals; null where memory is not shared. */
  readonly signals: Int32Array | null;
  /** Name of the lock that it holds as long as it lives (life.ts). */
  readonly life: string | null;
}

/** The share of the worker at a place in a check. */
export interface CheckShare {
  readonly document: SceneDocument;
  readonly names: MeshNames;
  readonly of: number;
  /** Memory of the check's board; null where memory is not shared. */
  readonly board: Int32Array | null;
  /** Name of the newest result that the page has; null: none. */
  readonly have: string | null;
}

/** After so many places of a room map little is left that has not been made or run before. */
const READY_PLACES = 24;
const SO_FAR_EVERY_MS = 300;
/** The place of the worker that puts the others' sweeps together. */
const LEAD = 0;

let machine = new Machine();
const envelopes = new EnvelopeRoom((body) => machine.treeOf(body));
let place = 0;
let signals = new Signals();
let areShared = false;
let exchange: TreeExchange | null = null;
const meshes = new Map<string, Solid>();
const desks = new SweepDesks((job) => signals.isStopped(job));
const peers = new Peers(receive);
const teller = new ResultTeller();
/** Jobs that are being done for which a room map waits. */
let urgent = 0;
/** The check that this worker was at last. */
let last: { readonly job: number; readonly prepared: PreparedCheck } | null = null;

/**
 * The worker's side of the pool: thin shells over the plain functions of machine.ts. Every job carries a number of its own.
 * The others send their sweeps to the one that leads.
 */
const shell = {
  /** The first call; resolves when the worker's life is held. */
  hire(hiring: Hiring): Promise<void> {
    place = hiring.place;
    if (hiring.signals) {
      areShared = true;
      signals = new Signals(hiring.signals);
      exchange = new TreeExchange((tree) => peers.tellAll({ kind: "tree", tree }));
      machine = new Machine(exchange.shelf);
    }
    return holdLife(hiring.life);
  },

  /** A line to the worker at another place, in place of the one before. */
  meet(other: number, line: MessagePort): void {
    peers.meet(other, line);
  },

  /** Keeps the mesh under its name; answers with it where memory is shared. */
  importMesh({ name, bytes, mesh }: MeshOrder): Promise<Outcome<Solid | null>> {
    return outcomeOf(async () => {
      signals.beginKeeping(place);
      try {
        const solid = await readyOrRefused(bytes, mesh.file, mesh);
        meshes.set(name, areShared ? inSharedMemory(solid) : solid);
        return areShared ? meshes.get(name)! : null;
      } finally {
        signals.endKeeping(place);
      }
    });
  },

  takeMesh(name: string, solid: Solid): void {
    meshes.set(name, solid);
  },

  dropMesh(name: string): void {
    meshes.delete(name);
  },

  /** `have`: contents of bodies whose solids the page has; these come without. */
  build(
    job: number,
    document: SceneDocument,
    names: MeshNames,
    have: ReadonlySet<string>,
  ): Promise<Outcome<readonly SentBody[]>> {
    return during(job, document, names, async ({ bodies }) => drawnBodies(bodies, have)).then((outcome) =>
      transfer(outcome, outcome.kind === "done" ? buffersOfBodies(outcome.value) : []),
    );
  },

  /** Sweeps the share and leaves the sweeps on the lead's desk. */
  sweep(
    job: number,
    { document, names, of, board, have }: CheckShare,
    onProgress: (progress: ToldProgress) => unknown,
  ): Promise<Outcome<void>> {
    return during(job, document, names, async (prepared, watch) => {
      last = { job, prepared };
      const pairsTotal = prepared.pairs.length;
      let sent = 0;
      const send = (done: readonly IndexedSweep[], rest: Partial<SweepNews>): void => {
        const news: SweepNews = { sweeps: done.slice(sent), carried: [], isLast: false, ...rest };
        sent = done.length;
        if (place === LEAD) desks.put(job, news);
        else peers.tell(LEAD, { kind: "sweeps", job, news });
      };
      if (place === LEAD) {
        desks.whenCovered(job, pairsTotal, (carried) => {
          const sweeps = desks.soFar(job);
          const verdicts = machine.concludeCarried(prepared, sweeps, carried, document.title);
          if (!verdicts) return;
          const told = teller.tell({ name: `${job} verdicts`, result: verdicts }, have);
          onProgress({ pairsDone: sent, pairsTotal, verdicts: told });
        });
      }
      const isTimeToTell = everyWhile(PROGRESS_EVERY_MS);
      const concluding = new TellingPace(SO_FAR_EVERY_MS);
      const done = await machine.sweepShare(
        prepared,
        { index: place, of, ...(board ? { board: new CheckBoard(board) } : {}) },
        {
          ...watch,
          onProgress(progress, soFar) {
            if (!isTimeToTell()) return;
            send(soFar, {});
            if (place !== LEAD || !concluding.isTime()) onProgress(progress);
            else {
              concluding.tell(() => {
                const result = concludeSweeps(prepared, desks.soFar(job), document.title);
                return onProgress({ ...progress, soFar: teller.tellOnce({ name: `${job} so far`, result }, have) });
              });
            }
          },
          onVerdicts: (soFar, carried) => send(soFar, { carried }),
        },
      );
      send(done, { isLast: true });
      onProgress({ pairsDone: done.length, pairsTotal });
    });
  },

  /** The result, once the sweeps of all shares are on the desk. */
  conclude(job: number, { document, names, of, have }: CheckShare): Promise<Outcome<ToldResult>> {
    return during(job, document, names, async (prepared) => {
      const result = machine.conclude(prepared, await desks.all(job, of), document.title);
      const least_mm = machine.leastOf(prepared);
      if (least_mm) peers.tellAll({ kind: "least", job, least_mm });
      return teller.tell({ name: `${job}`, result }, have);
    });
  },

  patch(job: number, request: PatchRequest, names: MeshNames): Promise<Outcome<DrawnContact>> {
    return during(job, request.document, names, async (prepared, watch) =>
      drawnContact(await machine.patch(prepared, request, watch.isStopped)),
    ).then((outcome) => transfer(outcome, outcome.kind === "done" ? buffersOfContact(outcome.value) : []));
  },

  gaps(job: number, request: GapRequest, names: MeshNames): Promise<Outcome<readonly (Gap | null)[]>> {
    return during(job, request.document, names, async (prepared, watch) =>
      machine.gaps(prepared, request.pairs, watch.isStopped),
    );
  },

  picture(job: number, request: PictureRequest, names: MeshNames): Promise<Outcome<MadePicture>> {
    return during(job, request.document, names, async (prepared, watch) => {
      requireWhole(prepared);
      return makePicture(prepared, machine.trees, request, () => {
        if (watch.isStopped()) throw new StoppedError();
      });
    }).then((outcome) => transfer(outcome, outcome.kind === "done" ? [outcome.value.file.buffer] : []));
  },

  model(job: number, request: ModelRequest, names: MeshNames): Promise<Outcome<Uint8Array<ArrayBuffer>>> {
    return during(job, request.document, names, async (prepared) => {
      requireWhole(prepared);
      // most pages never make one
      const { modelFile } = await import("../fabrication/exchange/modelFile.ts");
      return modelFile(prepared.scene, prepared.bodies, request.state, request.format, request.part);
    }).then((outcome) => transfer(outcome, outcome.kind === "done" ? [outcome.value.buffer] : []));
  },

  loads(job: number, document: SceneDocument, pose: string): Promise<Outcome<LoadsReport>> {
    return onScene(job, document, (scene) => reportLoads(scene, pose));
  },

  gear(job: number, document: SceneDocument, spare_mm: number): Promise<Outcome<GearReport>> {
    return onScene(job, document, (scene) => gearReport(scene, spare_mm));
  },

  envelope(
    job: number,
    request: EnvelopeRequest,
    names: MeshNames,
    onProgress: (share: number) => void,
  ): Promise<Outcome<EnvelopeAnswer>> {
    const isTimeToTell = everyWhile(PROGRESS_EVERY_MS);
    return during(job, request.document, names, async (prepared, watch) => {
      const answer = await envelopes.answer(prepared, request, {
        ...watch,
        onShare: (share) => {
          if (isTimeToTell()) onProgress(share);
        },
      });
      return answer;
    }).then((outcome) => transfer(outcome, buffersOf(outcome)));
  },

  /** This worker's share of a room map; it gives way to whatever else is asked. */
  room(
    job: number,
    question: Question<RoomRequest>,
    names: MeshNames,
    share: Share,
    onFrame: (frame: RoomFrame) => unknown,
    onNews: (news: RoomNews) => unknown,
  ): Promise<Outcome<void>> {
    const meshFiles = solidsOf(names);
    const isStopped = () => signals.isStopped(job);
    return outcomeOf(async () => {
      await breathe();
      while (urgent > 0 && !isStopped()) await breathe();
      if (isStopped()) throw new StoppedError();
      // it cannot be stopped in the middle, and the next check has use for its trees
      signals.beginKeeping(place);
      let run: RoomRun;
      try {
        run = new RoomRun({ ...question, meshFiles: allRead(meshFiles) }, share, machine.kept);
      } finally {
        signals.endKeeping(place);
      }
      await onFrame(frameOfRoom(run.map));
      let told: unknown;
      await askRoomShare(run, {
        onNews(news) {
          told = onNews(news);
        },
        isStopped,
        breathe,
        isNeeded: () => urgent > 0,
      });
      // news go another way than the answer, which must not come before the last of them
      await told;
    });
  },

  /** What is made for its first places stays made for the map. */
  readyRoom(job: number, question: Question<RoomRequest>, names: MeshNames): Promise<Outcome<void>> {
    return studied(job, names, (meshFiles, isStopped) => {
      const run = new RoomRun({ ...question, meshFiles }, WHOLE, machine.kept);
      for (let place = 0; place < READY_PLACES && !isStopped(); place++) run.next();
    });
  },

  ...studyShell({ studied, onScene }),

  /** Where memory is not shared. Takes effect at the job's next breath, some ten milliseconds later. */
  stop(job: number): void {
    signals.stop(job);
  },
};

export type MachineShell = typeof shell;

expose(shell);

/** What goes over instead of being copied. */
function buffersOf(outcome: Outcome<EnvelopeAnswer>): Transferable[] {
  if (outcome.kind !== "done" || outcome.value.kind !== "made") return [];
  const { positions, normals, indices } = outcome.value.envelope;
  return [positions.buffer, normals.buffer, indices.buffer];
}

function receive(message: PeerMessage): void {
  if (message.kind === "tree") exchange?.receive(message.tree);
  else if (message.kind === "sweeps") desks.put(message.job, message.news);
  else if (last?.job === message.job) machine.leastOf(last.prepared)?.set(message.least_mm);
}

/** Works on the prepared scene unless the job is stopped before that. */
function during<T>(
  job: number,
  document: SceneDocument,
  names: MeshNames,
  work: (prepared: PreparedCheck, watch: Watch) => Promise<T>,
): Promise<Outcome<T>> {
  // at once: what was given is kept for this call
  const solids = solidsOf(names);
  const isStopped = () => signals.isStopped(job);
  return urgently(async () => {
    await breathe();
    if (isStopped()) throw new StoppedError();
    const prepared = machine.prepare(document, solids, { isStopped });
    if (isStopped()) throw new StoppedError();
    return work(prepared, { onProgress() {}, isStopped, breathe });
  });
}

/** A room map on the same worker waits meanwhile. */
function urgently<T>(work: () => Promise<T>): Promise<Outcome<T>> {
  urgent++;
  return outcomeOf(work).finally(() => {
    urgent--;
  });
}

/** Lets a study work that reads the scene for itself, unless the job is stopped before that. */
function studied<T>(
  job: number,
  names: MeshNames,
  study: (meshFiles: ReadonlyMap<string, Solid>, isStopped: () => boolean) => T,
): Promise<Outcome<T>> {
  // at once: what was given is kept for this call
  const meshFiles = solidsOf(names);
  const isStopped = () => signals.isStopped(job);
  return outcomeOf(async () => {
    await breathe();
    if (isStopped()) throw new StoppedError();
    try {
      return study(allRead(meshFiles), isStopped);
    } catch (error) {
      throw error instanceof StudyStopped ? new StoppedError() : error;
    }
  });
}

function solidsOf(names: MeshNames): ReadonlyMap<string, Solid> {
  return new Map([...names].map(([file, name]) => [file, meshes.get(name)!]));
}

/** Works on the scene alone, which needs no bodies, unless the job is stopped before that. */
function onScene<T>(job: number, document: SceneDocument, work: (scene: Scene) => T): Promise<Outcome<T>> {
  return urgently(async () => {
    await breathe();
    if (signals.isStopped(job)) throw new StoppedError();
    return work(resolveScene(document));
  });
}
