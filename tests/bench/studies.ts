import { once } from "node:events";
import { readFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";
import { prepareCheck } from "../../src/check/check.ts";
import type { Vec3 } from "../../src/maths/vec3.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { listPoints } from "../../src/scene/points.ts";
import { readScene } from "../../src/scene/read.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { fullCheck } from "../../src/studies/fullCheck.ts";
import { type Fit, MovedPoints } from "../../src/studies/places/move.ts";
import { type PlaceQuestion, PlaceStudy } from "../../src/studies/places/placeStudy.ts";
import { PlaceGrid, type Region } from "../../src/studies/room/region.ts";
import { mapRoom, type RoomRequest } from "../../src/studies/room/room.ts";
import { figure, processor_ms, runRounds } from "./rounds.ts";

type Say = (line: string) => void;

const ROUNDS = 1;
const REACH_mm = 20;
const STEP_mm = 8;
/** Of the six scenes: one of each way in which a pivot is followed. */
const NAMES = ["2-hub-and-arm-re-cut-link.json", "3-double-wishbones-toe-link.json", "6-five-links.json"];
/** Places that the naive way is given: the whole check of each. */
const NAIVE: readonly Vec3[] = [[5, -5, 10]];
const TESSELLATIONS_mm = [0.8, 0.4, 0.2, 0.1];

const SCENES = new URL("../../scenes/", import.meta.url);

/**
 * Room maps of the first mount of every scene, cut to suit and bolted up, in places a second of one thread, beside the whole check of each
 * place; and how that goes with triangles, pairs and workers.
 */
export async function benchStudies(say: Say): Promise<void> {
  for (const name of NAMES) {
    const document = readScene(readFileSync(new URL(name, SCENES), "utf8"), name);
    const point = listPoints(document).find(({ isMount, name: id }) => isMount && id !== "arm.front")!.name;
    for (const fit of ["cut", "bolted"] as const) say(await measured(name, document, point, fit));
  }
  say(
    `In processor time, after a round that does not count; 125 places of up to ±${2 * STEP_mm} mm, all powertrain poses, both sides; the limits as the scene has them, left out where they do not hold as it is. Ready: before the first place.`,
  );
  say("");
  await growth(say);
}

function request(document: SceneDocument, point: string, fit: Fit): RoomRequest {
  const axes: readonly Vec3[] = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  const question: PlaceQuestion = {
    document,
    meshFiles: new Map(),
    points: [point],
    fit,
    limits: {},
    leaveOut: ["damper-length", "stop", "shaft-length"],
    travelStep_mm: 10,
    marginUpTo_mm: 10,
  };
  return {
    ...question,
    region: { spans: axes.map((along) => ({ along, from_mm: -REACH_mm, to_mm: REACH_mm })), step_mm: STEP_mm },
  };
}

async function measured(name: string, document: SceneDocument, point: string, fit: Fit): Promise<string> {
  const room = request(document, point, fit);
  const moved = new MovedPoints(document, [point], fit);
  const { ready_ms, pairs } = readiness(room);
  const spent = await runRounds(
    [
      { name: "room", run: () => void mapRoom(room) },
      {
        name: "naive",
        run: () => {
          for (const by of NAIVE) fullCheck(moved.at([by]), new Map(), name);
        },
      },
    ],
    ROUNDS,
  );
  const places = new PlaceGrid(room.region).count;
  const mapped = (1000 * places) / (spent.get("room")!.median - ready_ms);
  const naive = (1000 * NAIVE.length) / spent.get("naive")!.median;
  return `${name.replace(".json", "")}, ${point} ${fit}: ${pairs} pairs, ready in ${figure(ready_ms / 1000)} s, then ${figure(mapped)} places a second; whole checks ${figure(naive)} a second: ${figure(mapped / naive)} times as many.`;
}

function readiness(room: RoomRequest): { ready_ms: number; pairs: number } {
  const corners = new PlaceGrid(room.region).corners().map((corner) => [corner]);
  // warm
  new PlaceStudy(room, corners);
  const start = processor_ms();
  const study = new PlaceStudy(room, corners);
  const ready_ms = processor_ms() - start;
  return { ready_ms, pairs: study.reasons.filter(({ kind }) => kind === "clearance").length };
}

async function growth(say: Say): Promise<void> {
  const name = "2-hub-and-arm-re-cut-link.json";
  const document = readScene(readFileSync(new URL(name, SCENES), "utf8"), name);
  const variants: [string, SceneDocument][] = [
    ...TESSELLATIONS_mm.map((tessellation_mm): [string, SceneDocument] => [
      `drawn to ${tessellation_mm} mm`,
      { ...document, tessellation_mm },
    ]),
    ["left side alone", { ...document, sides: "left" }],
    ["left side, half of the bodies", withHalfOfBodies({ ...document, sides: "left" })],
  ];
  const spent = await runRounds(
    variants.map(([what, each]) => ({ name: what, run: () => void mapRoom(request(each, "upper.in", "cut")) })),
    1,
  );
  say(row("", "triangles", "pairs", "workers", "places a second"));
  for (const [what, each] of variants) {
    const room = request(each, "upper.in", "cut");
    const { ready_ms, pairs } = readiness(room);
    const rate = (1000 * new PlaceGrid(room.region).count) / (spent.get(what)!.median - ready_ms);
    say(row(what, figure(trianglesOf(each)), String(pairs), "1", figure(rate)));
  }
  const room = { ...request(document, "upper.in", "cut"), region: finer(request(document, "upper.in", "cut").region) };
  const { pairs } = readiness(room);
  for (const workers of [1, 2, 4]) {
    const rate = await rateOfWorkers(room, workers);
    say(row("as drawn, by the clock", figure(trianglesOf(document)), String(pairs), String(workers), figure(rate)));
  }
  say(
    `By the clock of a machine with ${availableParallelism()} processors, whatever else runs on it; each worker makes ready for itself first.`,
  );
}

function row(what: string, ...cells: readonly string[]): string {
  return `| ${what.padEnd(30)} | ${cells.map((cell) => cell.padStart(15)).join(" | ")} |`;
}

function trianglesOf(document: SceneDocument): number {
  return prepareCheck(resolveScene(document), new Map()).bodies.reduce(
    (sum, { solid }) => sum + solid.indices.length / 3,
    0,
  );
}

function finer(region: Region): Region {
  return { ...region, step_mm: STEP_mm / 2 };
}

/** Places a second while that many threads each map a share of the room, from when all are ready to when the last one is done. */
async function rateOfWorkers(room: RoomRequest, workers: number): Promise<number> {
  const threads = Array.from({ length: workers }, () => new Worker(new URL("./studiesThread.mjs", import.meta.url)));
  try {
    const { meshFiles: _, ...question } = room;
    const answers = (message: (index: number) => unknown) =>
      Promise.all(
        threads.map((thread, index) => {
          const answer = once(thread, "message");
          thread.postMessage(message(index));
          return answer;
        }),
      );
    await answers((index) => ({ ready: question, share: { index, of: workers } }));
    const start = performance.now();
    await answers(() => ({ go: true }));
    return (1000 * new PlaceGrid(room.region).count) / (performance.now() - start);
  } finally {
    await Promise.all(threads.map((thread) => thread.terminate()));
  }
}

function withHalfOfBodies(document: SceneDocument): SceneDocument {
  const { measures: _measures, setup: _setup, ...rest } = document;
  return { ...rest, bodies: document.bodies.filter((_, i) => i % 2 === 0), clearances: { default_mm: 10 } };
}
