import {
  type CarriedBody,
  type PlacePoses,
  PlaceSearch,
  type SearchedPair,
} from "../../../src/clearance/placeSearch.ts";
import { ballsOf, gaugeOf } from "../../../src/clearance/sweep.ts";
import { TreeShelf } from "../../../src/clearance/sweepShelf.ts";
import type { JointExcuse } from "../../../src/clearance/types.ts";
import type { Solid } from "../../../src/geometry/solid.ts";
import { composePoses, identityPose, invertPose, POSE_SIZE, type Pose, rotationPose } from "../../../src/maths/pose.ts";
import { add, normalise, scale, type Vec3 } from "../../../src/maths/vec3.ts";
import { randomPoint } from "../kernel/meshes.ts";
import { randomPart } from "../sweep/randomParts.ts";
import { ball, body, brick, joined, shiftPose } from "../sweep/shapes.ts";

/** What a search is asked: bodies, pairs, and where everything is in place after place. */
export interface Corner {
  readonly bodies: readonly CarriedBody[];
  readonly pairs: readonly SearchedPair[];
  readonly frameCount: number;
  readonly stateCount: number;
  readonly places: readonly PlacePoses[];
}

export function searchOf({ bodies, pairs, frameCount, stateCount }: Corner): PlaceSearch {
  return new PlaceSearch(new TreeShelf(), bodies, pairs, frameCount, stateCount);
}

/** Signed clearance of every pair at every state of every place, each measured from nothing by the sweep's own gauge. */
export function bruteForce(corner: Corner): number[][][] {
  const shelf = new TreeShelf();
  const bodyOf = (key: string) => corner.bodies.find(({ body }) => body.key === key)!;
  return corner.places.map(({ poses, first, end }) =>
    corner.pairs.map((pair) => {
      const [a, b] = [bodyOf(pair.a), bodyOf(pair.b)];
      const gaugeAnew = () =>
        gaugeOf(
          shelf.clip(a.body, ballsOf(pair.excuses, "centreInA")),
          shelf.clip(b.body, ballsOf(pair.excuses, "centreInB")),
        );
      const poseOf = ({ frame }: CarriedBody, state: number): Pose => {
        if (frame === null) return identityPose();
        const at = POSE_SIZE * (state * corner.frameCount + frame);
        return poses.slice(at, at + POSE_SIZE);
      };
      return Array.from({ length: end - first }, (_, k) => {
        const gauge = gaugeAnew();
        gauge.measure(composePoses(invertPose(poseOf(a, first + k)), poseOf(b, first + k)), false, Infinity);
        return gauge.state.clearance_mm;
      });
    }),
  );
}

/** A brick hollow enough for another, and what is in it apart from all of it: no overlap, however near. */
export function hollowBox(): Solid {
  const outer = brick([120, 100, 90]);
  const inner = brick([90, 70, 60]);
  const inward = { ...inner, indices: Uint32Array.from(inner.indices).reverse() };
  return { ...joined(outer, inward), convexPieces: null };
}

/** What the parts of a random corner are: whole parts of convex pieces; scans beside them; a hollow box and a solid one that holds things. */
export type Kind = "convex" | "scans" | "holding";

const FRAMES = 3;
const STATES = 5;

/**
 * Parts around the origin, some standing, the others on three frames that turn and shift a little from state to state, and
 * from place to place by a step that is mostly small, at times large, at times nothing. In some places states are missing.
 */
export function randomCorner(random: () => number, kind: Kind, placeCount: number): Corner {
  const solids: Solid[] = Array.from({ length: 4 }, () => randomPart(random, randomPoint(random, 45)));
  if (kind === "scans") for (const i of [1, 2]) solids[i] = { ...solids[i]!, convexPieces: null };
  if (kind === "holding") {
    solids[0] = hollowBox();
    solids[1] = brick([110, 120, 100], randomPoint(random, 60));
    solids[2] = ball(6, randomPoint(random, 20), 5);
  }
  const bodies = solids.map(
    (solid, i): CarriedBody => ({
      body: body(`body ${i}`, solid),
      frame: i === 0 ? null : Math.floor(random() * FRAMES),
    }),
  );
  const pairs: SearchedPair[] = [];
  for (const [i, a] of bodies.entries()) {
    for (const b of bodies.slice(i + 1)) {
      pairs.push({
        a: a.body.key,
        b: b.body.key,
        required_mm: Math.floor(random() * 4) * 5,
        excuses: excuseOf(random),
      });
    }
  }
  const motions = Array.from({ length: FRAMES }, () => ({
    axis: normalise(randomPoint(random, 1)),
    about: randomPoint(random, 120),
    rate: 0.05 * random(),
    slide: randomPoint(random, 6),
  }));
  let offset = Array.from({ length: FRAMES }, () => randomPoint(random, 20));
  const places = Array.from({ length: placeCount }, (): PlacePoses => {
    const size = random() < 0.1 ? 0 : random() < 0.15 ? 60 : 1.5;
    offset = offset.map((at) => scale(add(at, randomPoint(random, size)), 0.97));
    const poses = new Float64Array(POSE_SIZE * FRAMES * STATES);
    for (let state = 0; state < STATES; state++) {
      motions.forEach(({ axis, about, rate, slide }, frame) => {
        const travel = state - 2 + offset[frame]![0] / 10;
        const turn = rotationPose(axis, rate * travel, about);
        const pose = composePoses(shiftPose(add(scale(slide, travel), offset[frame]!)), turn);
        poses.set(pose, POSE_SIZE * (state * FRAMES + frame));
      });
    }
    const locks = random() < 0.2;
    return { poses, first: locks ? Math.floor(random() * 3) : 0, end: locks ? 3 + Math.floor(random() * 3) : STATES };
  });
  return { bodies, pairs, frameCount: FRAMES, stateCount: STATES, places };
}

function excuseOf(random: () => number): JointExcuse[] {
  if (random() < 0.8) return [];
  const centre = (): Vec3 => randomPoint(random, 40);
  return [{ centreInA: centre(), centreInB: centre(), radius_mm: 10 + 30 * random() }];
}
