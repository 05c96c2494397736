import { RelativeMotion } from "../../src/clearance/motion.ts";
import type { Motion, SweepBody, SweepPair } from "../../src/clearance/types.ts";
import type { Solid } from "../../src/geometry/solid.ts";
import { compileCorner } from "../../src/kinematics/corner.ts";
import { mountWriter } from "../../src/kinematics/mounts.ts";
import { runTravel } from "../../src/kinematics/travel.ts";
import { identityPose, POSE_SIZE, poseOfTrack } from "../../src/maths/pose.ts";
import { add, distance, mix, type Vec3 } from "../../src/maths/vec3.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { corner, damper, link, shaft, wheel, wishbone } from "../kinematics/corners.ts";
import { randomOf } from "../kinematics/random.ts";
import { barMesh, boxMesh, bumpyMesh, cubeMesh, roundedPath, solidOf, turnedMesh } from "./meshes.ts";

const BUMP_mm = 80;
const DROOP_mm = 70;
const STEPS = 61;
/** Of every pair. */
export const REQUIRED_mm = 10;

/** Hard points of a corner that never was on a car, left side. */
export const HARD_POINTS = {
  wheel: [0, 740, 300],
  armFront: [160, 330, 230],
  armRear: [-140, 330, 235],
  armOut: [10, 690, 205],
  upperIn: [-40, 360, 450],
  upperOut: [-20, 665, 430],
  toeIn: [-190, 340, 270],
  toeOut: [-150, 680, 275],
  trailingIn: [560, 480, 340],
  trailingOut: [70, 620, 330],
  damperTop: [-100, 500, 640],
  damperBottom: [-105, 595, 230],
  shaftIn: [25, 235, 345],
  shaftOut: [0, 668, 300],
} satisfies Record<string, Vec3>;

export type HardPoints = Record<keyof typeof HARD_POINTS, Vec3>;

/** Ends that an edit may move: of members that are drawn anew from the hard points. */
export const LINK_ENDS = { arm: "armFront", upper: "upperIn", toe: "toeIn", trailing: "trailingIn" } as const;
export type LinkId = keyof typeof LINK_ENDS;

/** What carries the bodies that move. */
export const MOUNTS: Readonly<Record<string, string>> = {
  upright: "carrier",
  tyre: "carrier",
  rim: "carrier",
  arm: "arm",
  upper: "upper",
  toe: "toe",
  trailing: "trailing",
  "damper-upper": "damper-upper",
  "damper-lower": "damper-lower",
  shaft: "driveshaft",
};

/** Who is asked against whom. Pairs that share a joint are left out. */
const NEIGHBOURS: Readonly<Record<string, readonly string[]>> = {
  sump: ["arm", "upper", "toe", "trailing", "shaft"],
  casing: ["arm", "upper", "toe", "damper-upper", "damper-lower"],
  guard: ["shaft", "arm", "upper", "damper-lower", "toe"],
  "bracket-low": ["shaft", "toe", "damper-lower"],
  "bracket-high": ["damper-upper", "damper-lower", "shaft"],
  rail: ["tyre", "upper", "damper-upper", "trailing", "arm"],
  exhaust: ["upper", "toe", "damper-upper", "shaft", "tyre"],
  shaft: ["damper-lower", "arm", "upper", "toe"],
  "damper-upper": ["upper", "tyre"],
  "damper-lower": ["toe", "arm", "rim"],
  rim: ["arm", "toe"],
  tyre: ["trailing", "upper"],
};

export interface SyntheticCorner {
  readonly name: string;
  readonly bodies: ReadonlyMap<string, SweepBody>;
  readonly pairs: readonly SweepPair[];
  readonly triangles: number;
  readonly moving: number;
}

/** One pair's poses at the steps, b's design position into a's, that every contender is asked. */
export interface PairSteps {
  readonly a: string;
  readonly b: string;
  readonly poses: readonly Float64Array[];
}

/** Number of cells for the two scans, and how many times finer than the coarse corner the other parts are. */
const DETAIL = { coarse: { cells: 20, finer: 0.93 }, fine: { cells: 100, finer: 4.27 } } as const;
export type Detail = keyof typeof DETAIL;

/** 17 bodies, 10 of them on a corner of arm, three links, damper and shaft; 44 pairs, all of them clear. The same every time. */
export function syntheticCorner(detail: Detail): SyntheticCorner {
  const solids = new Map(Object.entries({ ...standingSolids(detail), ...movingSolids(detail) }));
  const bodies = new Map(
    [...solids].map(([key, solid]): [string, SweepBody] => [key, { key, solid, content: `${detail} ${key}` }]),
  );
  return {
    name: detail,
    bodies,
    pairs: pairsOf(HARD_POINTS),
    triangles: [...solids.values()].reduce((sum, { indices }) => sum + indices.length / 3, 0),
    moving: [...solids.keys()].filter((key) => key in MOUNTS).length,
  };
}

/** All pairs with the motions that hang on the hard points: the corner is solved anew, knots 1 mm apart. */
export function pairsOf(points: HardPoints): SweepPair[] {
  const motions = motionsOf(points);
  const standing: Motion = { travel_mm: Float64Array.of(0), poses: identityPose() };
  const motionOf = (key: string): Motion => motions.get(MOUNTS[key] ?? "") ?? standing;
  return Object.entries(NEIGHBOURS).flatMap(([a, others]) =>
    others.map(
      (b): SweepPair => ({
        a,
        b,
        required_mm: REQUIRED_mm,
        excuses: [],
        variants: [{ pose: "rest", a: motionOf(a), b: motionOf(b), from_mm: -DROOP_mm, to_mm: BUMP_mm }],
      }),
    ),
  );
}

export function stepsOf({ pairs }: SyntheticCorner): PairSteps[] {
  return pairs.map(({ a, b, variants }) => {
    const { a: ofA, b: ofB, from_mm, to_mm } = variants[0]!;
    const motion = new RelativeMotion(ofA, ofB, from_mm, to_mm);
    const poses = Array.from({ length: STEPS }, (_, i) =>
      motion.poseAt(from_mm + ((to_mm - from_mm) * i) / (STEPS - 1), new Float64Array(POSE_SIZE)),
    );
    return { a, b, poses };
  });
}

/** A straight link, or a piece of one: fine enough for its whole length. */
export function drawBar(from: Vec3, to: Vec3, radius_mm: number, detail: Detail): Solid {
  const { finer } = DETAIL[detail];
  return solidOf([barMesh(straight(from, to, Math.round(10 * finer)), radius_mm, Math.round(16 * finer))], true);
}

/** The link as it is drawn between these points. */
export function drawLink(id: LinkId, points: HardPoints, detail: Detail): Solid {
  const { finer } = DETAIL[detail];
  const bar = (from: Vec3, to: Vec3, radius_mm: number) =>
    barMesh(straight(from, to, Math.round(10 * finer)), radius_mm, Math.round(16 * finer));
  switch (id) {
    case "arm":
      return solidOf([bar(points.armFront, points.armOut, 15), bar(points.armRear, points.armOut, 15)], true);
    case "upper":
      return solidOf([bar(points.upperIn, points.upperOut, 12)], true);
    case "toe":
      return solidOf([bar(points.toeIn, points.toeOut, 12)], true);
    case "trailing": {
      // cranked, to pass the tyre
      const bow = add(mix(points.trailingIn, points.trailingOut, 0.6), [0, -25, 20]);
      const path = roundedPath([points.trailingIn, bow, points.trailingOut], 80, Math.round(18 * finer));
      return solidOf([barMesh(path, 14, Math.round(16 * finer))]);
    }
  }
}

export function sceneOf(points: HardPoints): Scene {
  const members = [
    wishbone("arm", points.armFront, points.armRear, points.armOut),
    link("upper", points.upperIn, points.upperOut),
    link("toe", points.toeIn, points.toeOut),
    link("trailing", points.trailingIn, points.trailingOut),
  ];
  return corner(members, wheel(points.wheel, 0.15, -1), {
    damper: damper(points.damperTop, points.damperBottom),
    driveshaft: shaft(points.shaftIn, [0, 1, 0], points.shaftOut),
  });
}

function motionsOf(points: HardPoints): Map<string, Motion> {
  const compiled = compileCorner(sceneOf(points), "left");
  const { travel_mm, carrier } = runTravel(compiled, { bump_mm: BUMP_mm, droop_mm: DROOP_mm, step_mm: 1 });
  const writer = mountWriter(compiled, "rest");
  const tracks = writer.order.map(() => new Float64Array(travel_mm.length * POSE_SIZE));
  const out = new Float64Array(writer.order.length * POSE_SIZE);
  for (let knot = 0; knot < travel_mm.length; knot++) {
    writer.write(poseOfTrack(carrier, knot), out);
    tracks.forEach((track, i) => {
      poseOfTrack(track, knot).set(poseOfTrack(out, i));
    });
  }
  return new Map(writer.order.map((mount, i) => [mount, { travel_mm, poses: tracks[i]! }]));
}

function movingSolids(detail: Detail): Record<string, Solid> {
  const { finer } = DETAIL[detail];
  const many = (count: number) => Math.round(count * finer);
  const points = HARD_POINTS;
  const [, y, z] = points.wheel;
  const onAxle = (along: number): Vec3 => [0, y + along, z];
  const damperLength = distance(points.damperTop, points.damperBottom);
  const shaftLength = distance(points.shaftIn, points.shaftOut);
  return {
    upright: solidOf([bumpyMesh([-5, 668, 315], [50, 24, 112], 3, many(7), randomOf(3))]),
    tyre: solidOf([turnedMesh(onAxle(-103), onAxle(103), tyreProfile(many(14)), many(26), true)]),
    rim: solidOf([turnedMesh(onAxle(-95), onAxle(95), rimProfile(many(10)), many(24), true)]),
    arm: drawLink("arm", points, detail),
    upper: drawLink("upper", points, detail),
    toe: drawLink("toe", points, detail),
    trailing: drawLink("trailing", points, detail),
    "damper-upper": solidOf([
      // a sleeve with the ridges of a spring
      turnedMesh(
        points.damperTop,
        points.damperBottom,
        profileOf(many(17), 0, 0.46 * damperLength, (along) => 36 + 4 * Math.cos((2 * Math.PI * along) / 22)),
        many(20),
      ),
    ]),
    "damper-lower": solidOf([
      turnedMesh(
        points.damperTop,
        points.damperBottom,
        profileOf(many(13), 0.47 * damperLength, damperLength, (along) => (along < 0.55 * damperLength ? 11 : 24)),
        many(20),
      ),
    ]),
    shaft: solidOf([
      turnedMesh(
        points.shaftIn,
        points.shaftOut,
        profileOf(many(20), 65, shaftLength, (along) => {
          if (along < 125) return 33 + 3 * Math.cos((2 * Math.PI * along) / 12);
          return along < shaftLength - 60 ? 13 : 13 + 24 * Math.min(1, (along - shaftLength + 60) / 25);
        }),
        many(20),
      ),
    ]),
  };
}

function standingSolids(detail: Detail): Record<string, Solid> {
  const { cells, finer } = DETAIL[detail];
  const many = (count: number) => Math.round(count * finer);
  const { shaftIn, shaftOut } = HARD_POINTS;
  const shaftAt = (along: number) => mix(shaftIn, shaftOut, along / distance(shaftIn, shaftOut));
  return {
    sump: solidOf([bumpyMesh([235, 155, 368], [180, 175, 125], 5, cells, randomOf(1))]),
    casing: solidOf([bumpyMesh([-30, 112, 345], [115, 165, 110], 5, cells, randomOf(2))]),
    // half round over the shaft's boot
    guard: solidOf([
      cubeMesh([many(16), many(4), many(1)], ([across, along, through]) => {
        const angle = (Math.PI / 2) * across;
        const radius = 65.5 + 1.5 * through;
        const middle = shaftAt(95 + 32 * along);
        return [middle[0] + radius * Math.sin(angle), middle[1], middle[2] + radius * Math.cos(angle)];
      }),
    ]),
    "bracket-low": solidOf([boxMesh([-140, 310, 225], [26, 14, 40], [many(6), many(4), many(8)])], true),
    "bracket-high": solidOf([boxMesh([-40, 335, 455], [40, 14, 45], [many(6), many(4), many(8)])], true),
    rail: solidOf([
      barMesh(
        roundedPath(
          [
            [600, 520, 230],
            [300, 400, 200],
            [100, 420, 480],
            [-200, 420, 560],
            [-350, 440, 400],
          ],
          60,
          many(24),
        ),
        25,
        many(14),
      ),
    ]),
    exhaust: solidOf([
      barMesh(
        roundedPath(
          [
            [250, 300, 560],
            [60, 300, 560],
            [-150, 290, 400],
            [-330, 330, 340],
            [-390, 600, 330],
          ],
          70,
          many(24),
        ),
        30,
        many(14),
      ),
    ]),
  };
}

function straight(from: Vec3, to: Vec3, pieces: number): Vec3[] {
  return Array.from({ length: pieces + 1 }, (_, i) => mix(from, to, i / pieces));
}

function profileOf(
  pieces: number,
  from: number,
  to: number,
  radiusAt: (along: number) => number,
): (readonly [number, number])[] {
  const inner = Array.from({ length: pieces + 1 }, (_, i): readonly [number, number] => {
    const along = from + ((to - from) * i) / pieces;
    return [along, radiusAt(along)];
  });
  return [[from, 0], ...inner, [to, 0]];
}

/** A rounded section 206 mm wide, radius 205 to 316, run so that its outside faces away from it. */
function tyreProfile(pieces: number): (readonly [number, number])[] {
  return Array.from({ length: pieces }, (_, i) => {
    const angle = (-2 * Math.PI * i) / pieces;
    const round = (value: number) => Math.sign(value) * Math.abs(value) ** 0.6;
    return [103 + 102.5 * round(Math.cos(angle)), 260.5 + 55.5 * round(Math.sin(angle))] as const;
  });
}

/** A barrel 190 mm wide with flanges, 7 mm thick: out along its outside, back along its inside. */
function rimProfile(pieces: number): (readonly [number, number])[] {
  const radiusAt = (along: number) => 187 + 14 * Math.abs(along / 95 - 1) ** 4;
  const along = Array.from({ length: pieces + 1 }, (_, i) => (190 * i) / pieces);
  const inside = along.map((a) => [a, radiusAt(a)] as const);
  return [...along.map((a) => [a, radiusAt(a) + 7] as const), ...inside.reverse()];
}
