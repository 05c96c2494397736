import { snakeOrder } from "../../src/clearance/placeOrder.ts";
import type { CarriedBody, PlacePoses, SearchedPair } from "../../src/clearance/placeSearch.ts";
import type { SweepBody } from "../../src/clearance/types.ts";
import { compileCorner } from "../../src/kinematics/corner.ts";
import { type MountWriter, mountWriter } from "../../src/kinematics/mounts.ts";
import { writeLeastTurn } from "../../src/kinematics/rider.ts";
import { TravelStates } from "../../src/kinematics/travelStates.ts";
import { composePoses, POSE_SIZE, poseOfTrack } from "../../src/maths/pose.ts";
import { add, mix, normalise, subtract, type Vec3 } from "../../src/maths/vec3.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { drawBar, drawLink, HARD_POINTS, MOUNTS, sceneOf, syntheticCorner } from "./syntheticCorner.ts";

/**
 * What becomes of the upper link when its inboard pivot moves. `bolted`: it keeps its length, and the wheel goes where the
 * parts put it. `cut`: it is cut to suit, and the wheel stays; it is then two pieces, one at either end, that slide in each
 * other: together they are the link as it would be drawn, whatever its length. `redrawn`: cut to suit as well, but its
 * triangles are drawn anew for every place, as must be with a part of any other shape.
 */
export type Fit = "bolted" | "cut" | "redrawn";

/** 10,000 places in a box of ±25 mm. */
const COUNTS = [25, 20, 20] as const;
const REACH_mm = 25;
export const PLACE_COUNT = COUNTS[0] * COUNTS[1] * COUNTS[2];
const STATE_COUNT = 21;
const TRAVEL_mm = Array.from({ length: STATE_COUNT }, (_, i) => -70 + (150 * i) / (STATE_COUNT - 1));

/** Of the link as drawn. With 0.6 of it the pieces cover each other's end at every place: it is from 258 to 357 mm long. */
const PIECE_SHARE = 0.6;
const LINK_RADIUS_mm = 12;

const { upperIn, upperOut } = HARD_POINTS;
const UPPER = 1;

/** The fine synthetic corner with the upper link's inboard pivot, and its bracket, in one place after another. */
export class PlacesCorner {
  readonly bodies: readonly CarriedBody[];
  readonly pairs: readonly SearchedPair[];
  readonly frameCount: number;
  readonly stateCount = STATE_COUNT;
  private readonly fit: Fit;
  private readonly scene: Scene = sceneOf(HARD_POINTS);
  private readonly states = new TravelStates(TRAVEL_mm);
  private readonly order = snakeOrder(COUNTS);
  private readonly mountCount: number;
  private readonly poses: Float64Array;
  private readonly pieces = new Float64Array(2 * POSE_SIZE);
  private readonly composed = new Float64Array(POSE_SIZE);

  constructor(fit: Fit) {
    this.fit = fit;
    const mounts = mountWriter(compileCorner(this.scene, "left"), "rest").order;
    this.mountCount = mounts.length;
    // after the mounts: the pivot, then the link's inboard and outboard piece
    const frames = [...mounts, "pivot", "inboard", "outboard"];
    this.frameCount = frames.length;
    this.poses = new Float64Array(POSE_SIZE * this.frameCount * STATE_COUNT);
    const corner = syntheticCorner("fine");
    const frameOf = (mount: string | undefined) => (mount === undefined ? null : frames.indexOf(mount));
    const bodies = [...corner.bodies.values()].map(
      (body): CarriedBody => ({ body, frame: frameOf(body.key === "bracket-high" ? "pivot" : MOUNTS[body.key]) }),
    );
    const pairs = corner.pairs.map(({ a, b, required_mm }): SearchedPair => ({ a, b, required_mm, excuses: [] }));
    if (fit !== "cut") {
      this.bodies = bodies;
      this.pairs = pairs;
      return;
    }
    const pieces: CarriedBody[] = [
      pieceOf("upper-inboard", upperIn, upperOut, frames.indexOf("inboard")),
      pieceOf("upper-outboard", upperOut, upperIn, frames.indexOf("outboard")),
    ];
    this.bodies = [...bodies.filter(({ body }) => body.key !== "upper"), ...pieces];
    this.pairs = pairs.flatMap((pair) =>
      [pair.a, pair.b].includes("upper") ? pieces.map(({ body: { key } }) => withPiece(pair, key)) : [pair],
    );
  }

  /** The place of that number in the order of the search. */
  at(index: number): Vec3 {
    const place = this.order[index]!;
    const cell = [
      place % COUNTS[0],
      Math.floor(place / COUNTS[0]) % COUNTS[1],
      Math.floor(place / COUNTS[0] / COUNTS[1]),
    ];
    return add(upperIn, cell.map((c, k) => REACH_mm * ((2 * c) / (COUNTS[k]! - 1) - 1)) as unknown as Vec3);
  }

  /** The link in that place; null where it is the same in all. */
  linkAt(index: number): SweepBody | null {
    if (this.fit !== "redrawn") return null;
    const solid = drawLink("upper", { ...HARD_POINTS, upperIn: this.at(index) }, "fine");
    return { key: "upper", solid, content: `upper in place ${index}` };
  }

  /** Poses in that place; the same memory is written again for the next. */
  posesAt(index: number): PlacePoses {
    const { states, poses, frameCount, mountCount } = this;
    const pivot = this.at(index);
    const corner = compileCorner(this.sceneAt(pivot), "left");
    states.solve(corner);
    const writer: MountWriter = mountWriter(corner, "rest");
    const [dx, dy, dz] = subtract(pivot, upperIn);
    const drawn = normalise(subtract(upperOut, upperIn));
    const line = subtract(upperOut, pivot);
    writeLeastTurn(poseOfTrack(this.pieces, 0), drawn, line, upperIn, pivot);
    writeLeastTurn(poseOfTrack(this.pieces, 1), drawn, line, upperOut, upperOut);
    for (let state = states.first; state < states.end; state++) {
      const first = state * frameCount;
      writer.write(poseOfTrack(states.carrier, state), poses, POSE_SIZE * first);
      let at = POSE_SIZE * (first + mountCount);
      poses.fill(0, at, at + POSE_SIZE);
      poses[at] = 1;
      poses[at + 5] = 1;
      poses[at + 10] = 1;
      poses[at + 3] = dx;
      poses[at + 7] = dy;
      poses[at + 11] = dz;
      if (this.fit !== "cut") continue;
      const link = poseOfTrack(poses, first + writer.order.indexOf("upper"));
      for (let piece = 0; piece < 2; piece++) {
        at += POSE_SIZE;
        poses.set(composePoses(link, poseOfTrack(this.pieces, piece), this.composed), at);
      }
    }
    return { poses, first: states.first, end: states.end };
  }

  private sceneAt(pivot: Vec3): Scene {
    const { scene, fit } = this;
    const upper = scene.members[UPPER]!;
    if (upper.kind !== "link") throw new Error("the upper member is a link");
    const inboard = fit === "bolted" ? upper.inboard : pivot;
    return { ...scene, members: scene.members.with(UPPER, { ...upper, inboard, inboardMounted: pivot }) };
  }
}

function pieceOf(key: string, from: Vec3, to: Vec3, frame: number): CarriedBody {
  const solid = drawBar(from, mix(from, to, PIECE_SHARE), LINK_RADIUS_mm, "fine");
  return { body: { key, solid, content: `fine ${key}` }, frame };
}

function withPiece(pair: SearchedPair, key: string): SearchedPair {
  return pair.a === "upper" ? { ...pair, a: key } : { ...pair, b: key };
}
