import { deserialize } from "@jscad/stl-deserializer";
import { LuDecomposition } from "ml-matrix";
import { BufferAttribute, BufferGeometry } from "three";
import { MeshBVH } from "three-mesh-bvh";
import { buildTree } from "../../src/clearance/kernel.ts";
import { stlOf } from "../../src/geometry/export/meshFiles.ts";
import { importMesh } from "../../src/geometry/importMesh.ts";
import { compileCorner } from "../../src/kinematics/corner.ts";
import { runTravel } from "../../src/kinematics/travel.ts";
import { standCorner } from "../../src/loads/stand.ts";
import { poseOfTrack } from "../../src/maths/pose.ts";
import { mapRoom } from "../../src/studies/room/room.ts";
import { Machine, type Watch } from "../../src/work/machine.ts";
import { fitCarrier } from "../kinematics/fitCarrier.ts";
import { FreeBodies } from "../loads/freeBodies.ts";
import { sceneFile } from "../scenes/files.ts";
import { question, studyCorner } from "../studies/studyCorner.ts";
import { bvhPeer, manifoldPeer, rapierPeer } from "./peers.ts";
import { askOurs, sampleQueries } from "./queries.ts";

/** A job of the program and one of a general-purpose library, done in the same rounds. */
export interface Pair {
  readonly job: string;
  readonly peer: string;
  ours(): unknown;
  theirs(): unknown;
}

const CAP_mm = 25;
const PATIENT: Watch = { onProgress() {}, isStopped: () => false, breathe: () => Promise.resolve() };

/**
 * What a slowdown shows in: each job beside a library's of the same kind on the same car, or, where no library does it, beside one
 * that leans on the machine alike. None of the libraries is ours to change, so that their time measures the machine.
 */
export async function pairsToKeep(): Promise<Pair[]> {
  const { document, scene } = sceneFile("1-");
  const prepared = new Machine().prepare(document, new Map());
  const bodies = new Map(prepared.bodies.map((body) => [body.key, body]));
  const queries = sampleQueries(prepared);
  const peers = [bvhPeer({ bodies }), await manifoldPeer({ bodies }, CAP_mm), await rapierPeer({ bodies }, CAP_mm)];
  const [bvh] = peers;
  const askBvh = () => {
    for (const query of queries) bvh!.ask(query);
  };

  const bare = { ...scene, driveshaft: null, loads: { ...scene.loads, cornerMass_kg: { left: 285, right: 270 } } };
  const corner = compileCorner(bare, "left");
  const run = runTravel(corner, scene.travel);
  const load = { force_N: [-2000, 500, 3000], torque: "carrier", dropLink_N: 0 } as const;

  const large = prepared.bodies.reduce((a, b) => (b.solid.indices.length > a.solid.indices.length ? b : a));
  const stl = stlOf({ key: large.key, ...large.solid });

  const studied = question(studyCorner());
  const region = {
    spans: [
      { along: [0, 1, 0], from_mm: -10, to_mm: 10 },
      { along: [0, 0, 1], from_mm: -10, to_mm: 10 },
    ],
    step_mm: 5,
  } as const;

  return [
    ...peers.map(
      (peer): Pair => ({
        job: peer.cap_mm === Number.POSITIVE_INFINITY ? "distances, exact" : `distances below ${CAP_mm} mm`,
        peer: peer.name,
        ours: () => askOurs(bodies, queries, peer.cap_mm),
        theirs: () => {
          for (const query of queries) peer.ask(query);
        },
      }),
    ),
    {
      job: "trees of all bodies",
      peer: "three-mesh-bvh",
      ours: () => {
        for (const { solid } of prepared.bodies) buildTree(solid);
      },
      theirs: () => {
        for (const { solid } of prepared.bodies) {
          const geometry = new BufferGeometry();
          geometry.setAttribute("position", new BufferAttribute(solid.positions, 3));
          // it sorts the index in its place
          geometry.setIndex(new BufferAttribute(solid.indices.slice(), 1));
          new MeshBVH(geometry, { targetLeafSize: 8 });
        }
      },
    },
    {
      job: "whole check, cold",
      peer: "distances by three-mesh-bvh",
      ours: async () => {
        const machine = new Machine();
        await machine.check(machine.prepare(document, new Map()), document.title, PATIENT);
      },
      theirs: askBvh,
    },
    {
      job: "room map of 25 places",
      peer: "distances by three-mesh-bvh",
      ours: () => mapRoom({ ...studied, region }),
      theirs: askBvh,
    },
    {
      job: "carrier over the travel",
      peer: "Levenberg–Marquardt on differences, of the tests",
      ours: () => runTravel(corner, { bump_mm: 40, droop_mm: 40, step_mm: 1 }),
      theirs: () => fitCarrier(bare, 40, 2),
    },
    {
      job: "equilibrium over the travel",
      peer: "ml-matrix",
      ours: () => {
        for (let knot = 0; knot < run.travel_mm.length; knot++) {
          standCorner(corner, poseOfTrack(run.carrier, knot))?.balance(load);
        }
      },
      theirs: () => {
        for (let knot = 0; knot < run.travel_mm.length; knot++) {
          const system = new FreeBodies(corner, poseOfTrack(run.carrier, knot), scene.wheel.centre);
          system.forces(new LuDecomposition(system.matrix).solve(system.rightSide(load)));
        }
      },
    },
    {
      job: "STL read and welded",
      peer: "@jscad/stl-deserializer",
      ours: () => importMesh(stl, "part.stl", "mm"),
      theirs: () => deserialize({ output: "geometry", addMetaData: false }, stl.buffer),
    },
  ];
}
