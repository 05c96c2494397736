import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { SceneDocument } from "../../src/scene/document.ts";
import { withPoint } from "../../src/scene/points.ts";
import { readScene } from "../../src/scene/read.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { Machine, type Watch } from "../../src/work/machine.ts";
import { bvhPeer, manifoldPeer, type Peer, rapierPeer } from "./peers.ts";
import { askOurs, MOST_QUERIES, sampleQueries } from "./queries.ts";
import { type Contender, figure, runRounds, tableLines } from "./rounds.ts";

const FOLDER = fileURLToPath(new URL("../../scenes/", import.meta.url));
const ROUNDS = 3;
const CAP_mm = 25;
const PATIENT: Watch = { onProgress() {}, isStopped: () => false, breathe: () => Promise.resolve() };

/**
 * The whole check of every scene cold, warm and after a 1 mm move; then plain distances of a sample of its pairs and steps beside
 * the peers', each asked as far as it can be: exactly, or below a cap.
 */
export async function benchScenes(say: (line: string) => void): Promise<void> {
  const checks = [["scene", "triangles", "pairs", "cold ms", "warm ms", "1 mm move ms"]];
  const besides = [["scene", "distances", "peer", "ours ms", "peer ms", "ours is"]];
  for (const file of readdirSync(FOLDER).filter((name) => name.endsWith(".json"))) {
    const document = readScene(readFileSync(FOLDER + file, "utf8"), file);
    const prepared = new Machine().prepare(document, new Map());
    const bodies = new Map(prepared.bodies.map((body) => [body.key, body]));
    const peers = [bvhPeer({ bodies }), await manifoldPeer({ bodies }, CAP_mm), await rapierPeer({ bodies }, CAP_mm)];
    const queries = sampleQueries(prepared);
    let machine = new Machine();
    const contenders: Contender[] = [
      {
        name: "cold",
        run: () => {
          machine = new Machine();
          return sweep(machine, document);
        },
      },
      { name: "warm", run: () => sweepAgain(machine, document) },
      { name: "move", run: () => sweep(machine, moved(document)) },
    ];
    for (const peer of peers) {
      contenders.push({ name: beside(peer), run: () => askOurs(bodies, queries, peer.cap_mm) });
      contenders.push({
        name: peer.name,
        run: () => {
          for (const query of queries) peer.ask(query);
        },
      });
    }
    const spent = await runRounds(contenders, ROUNDS);
    const triangles = prepared.bodies.reduce((sum, { solid }) => sum + solid.indices.length / 3, 0);
    const ms = (name: string) => figure(spent.get(name)!.median);
    checks.push([file, `${triangles}`, `${prepared.pairs.length}`, ms("cold"), ms("warm"), ms("move")]);
    for (const peer of peers) {
      const ratio = spent.get(peer.name)!.median / spent.get(beside(peer))!.median;
      const job = peer.cap_mm === Number.POSITIVE_INFINITY ? "exact" : `below ${CAP_mm} mm`;
      besides.push([file, job, peer.name, ms(beside(peer)), ms(peer.name), `${figure(ratio)} times faster`]);
    }
  }
  for (const line of [...tableLines(checks), "", ...tableLines(besides)]) say(line);
  say(`Processor time, medians of ${ROUNDS} interleaved rounds; ${MOST_QUERIES} distances a scene at the most.`);
}

const beside = (peer: Peer): string => `ours beside ${peer.name}`;

async function sweep(machine: Machine, document: SceneDocument): Promise<void> {
  await machine.check(machine.prepare(document, new Map()), document.title, PATIENT);
}

/** The same scene with every sweep forgotten but trees and solids kept: a renamed copy would be served from the shelf. */
async function sweepAgain(machine: Machine, document: SceneDocument): Promise<void> {
  machine.forgetSweeps();
  await sweep(machine, document);
}

/** One link end 1 mm farther out. */
function moved(document: SceneDocument): SceneDocument {
  const scene = resolveScene(document);
  const name = ["upper.in", "upper.front.in", "toe.in", ...scene.points.keys()].find((point) =>
    scene.points.has(point),
  )!;
  const [x, y, z] = scene.points.get(name)!.at;
  return withPoint(document, name, [x, y + 1, z]);
}
