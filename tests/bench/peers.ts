import rapier from "@dimforge/rapier3d-compat";
import loadManifold from "manifold-3d";
import { BufferAttribute, BufferGeometry, Matrix4, Quaternion } from "three";
import { MeshBVH } from "three-mesh-bvh";
import type { Solid } from "../../src/geometry/solid.ts";
import type { Pose } from "../../src/maths/pose.ts";
import { randomOf } from "../kinematics/random.ts";
import type { PairSteps } from "./syntheticCorner.ts";

/** One distance query out of the many. */
export interface Query {
  readonly a: string;
  readonly b: string;
  readonly pose: Pose;
}

/** What the queries name. */
interface Bodies {
  readonly bodies: ReadonlyMap<string, { readonly solid: Solid }>;
}

/** A general-purpose library that is asked a sample of the queries. */
export interface Peer {
  readonly name: string;
  /** Distances farther than this need not be told, mm. */
  readonly cap_mm: number;
  /** Whether it takes the bodies as they are, so that its answers can be held against ours. */
  readonly sameBodies: boolean;
  /** The distance, or something not below the cap. */
  ask(query: Query): number;
}

/** A random step of so many pairs, no pair twice. */
export function sampleOf(steps: readonly PairSteps[], count: number, seed: number): Query[] {
  const random = randomOf(seed);
  const rest = [...steps];
  const sample: Query[] = [];
  while (sample.length < count && rest.length > 0) {
    const [{ a, b, poses }] = rest.splice(Math.floor(random() * rest.length), 1) as [PairSteps];
    sample.push({ a, b, pose: poses[Math.floor(random() * poses.length)]! });
  }
  return sample;
}

export function bvhPeer({ bodies }: Bodies): Peer {
  const trees = madeOnce(bodies, (solid) => {
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", new BufferAttribute(solid.positions.slice(), 3));
    geometry.setIndex(new BufferAttribute(solid.indices.slice(), 1));
    const tree = new MeshBVH(geometry, { targetLeafSize: 8 });
    geometry.boundsTree = tree;
    return tree;
  });
  const matrix = new Matrix4();
  return {
    name: "three-mesh-bvh",
    cap_mm: Number.POSITIVE_INFINITY,
    sameBodies: true,
    ask({ a, b, pose: p }) {
      matrix.set(p[0]!, p[1]!, p[2]!, p[3]!, p[4]!, p[5]!, p[6]!, p[7]!, p[8]!, p[9]!, p[10]!, p[11]!, 0, 0, 0, 1);
      const nearest = trees(a).closestPointToGeometry(trees(b).geometry, matrix);
      return nearest?.distance ?? Number.POSITIVE_INFINITY;
    },
  };
}

export async function manifoldPeer({ bodies }: Bodies, cap_mm: number): Promise<Peer> {
  const loaded = await loadManifold();
  loaded.setup();
  const { Manifold, Mesh } = loaded;
  const solids = madeOnce(bodies, ({ positions, indices }) =>
    Manifold.ofMesh(new Mesh({ numProp: 3, vertProperties: positions, triVerts: indices })),
  );
  return {
    name: "manifold-3d",
    cap_mm,
    sameBodies: true,
    ask({ a, b, pose: p }) {
      const columns = [0, 1, 2, 3].flatMap((column) => [
        p[column]!,
        p[4 + column]!,
        p[8 + column]!,
        column < 3 ? 0 : 1,
      ]);
      const moved = solids(b).transform(columns as Parameters<InstanceType<typeof Manifold>["transform"]>[0]);
      const gap = solids(a).minGap(moved, cap_mm);
      moved.delete();
      return gap;
    },
  };
}

/** A physics engine's contact of the bodies' convex hulls: less than was asked, as hulls fill every hollow. */
export async function rapierPeer({ bodies }: Bodies, cap_mm: number): Promise<Peer> {
  await rapier.init();
  const hulls = madeOnce(bodies, ({ positions }) => rapier.ColliderDesc.convexHull(positions)!.shape);
  const here = { x: 0, y: 0, z: 0 };
  const unturned = { x: 0, y: 0, z: 0, w: 1 };
  const matrix = new Matrix4();
  const turn = new Quaternion();
  return {
    name: "rapier, hulls",
    cap_mm,
    sameBodies: false,
    ask({ a, b, pose: p }) {
      matrix.set(p[0]!, p[1]!, p[2]!, 0, p[4]!, p[5]!, p[6]!, 0, p[8]!, p[9]!, p[10]!, 0, 0, 0, 0, 1);
      turn.setFromRotationMatrix(matrix);
      const at = { x: p[3]!, y: p[7]!, z: p[11]! };
      return hulls(a).contactShape(here, unturned, hulls(b), at, turn, cap_mm)?.distance ?? cap_mm;
    },
  };
}

function madeOnce<T>(bodies: Bodies["bodies"], make: (solid: Solid) => T): (key: string) => T {
  const made = new Map<string, T>();
  return (key) => {
    const item = made.get(key) ?? make(bodies.get(key)!.solid);
    made.set(key, item);
    return item;
  };
}
