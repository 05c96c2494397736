import type { Solid } from "../../geometry/solid.ts";
import { compileCorner } from "../../kinematics/corner.ts";
import { type ReadingRates, readCorner } from "../../kinematics/readings.ts";
import { add, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { withBoltedUp } from "../../scene/points.ts";
import { resolveScene } from "../../scene/resolve.ts";
import type { Scene } from "../../scene/scene.ts";
import { seededRandom } from "../random.ts";
import { StudyStopped } from "../stopped.ts";
import { type ClearanceSpread, clearanceSpreads } from "./clearances.ts";
import { cornerAtRide, DIRECTIONS, type Direction, type MountRates, mountRates, mountsOf } from "./sensitivity.ts";
import { quantiles, stackOf } from "./stack.ts";

export interface JigRequest {
  readonly document: SceneDocument;
  readonly meshFiles: ReadonlyMap<string, Solid>;
  /** How far toe and camber at ride height may be from what they are meant to be. */
  readonly toeWithin_deg: number;
  readonly camberWithin_deg: number;
  /** How closely the builder places a mount, each way along each direction, mm. */
  readonly accuracy_mm: number;
  /** By point; others take the tolerance that the scene gives them, or the accuracy. */
  readonly tolerance_mm: Readonly<Record<string, number>>;
  readonly samples: number;
  readonly seed: number;
  /** False: only angles. */
  readonly withClearances: boolean;
}

export interface JigMount {
  readonly point: string;
  /** Change per mm, bolted up, exact. */
  readonly perMm: MountRates;
  /** How far off along each direction, by itself, for the asked toe and camber, mm; null: it hardly matters. */
  readonly within_mm: Readonly<Record<Direction, number | null>>;
  readonly closest_mm: number | null;
  readonly tolerance_mm: number;
  /** Tighter than the builder can place it: slots, shims or an adjuster. */
  readonly wantsAdjuster: boolean;
}

/** What all tolerances do together. */
export interface Spread {
  /** Sum of all changes, each the worst way, by the derivatives. */
  readonly worst: number;
  /** Root of the sum of squares of the same. */
  readonly rootSumSquares: number;
  /** Of the sampled corners: least, 5 %, middle, 95 %, greatest change. */
  readonly sampled: readonly [number, number, number, number, number];
}

export interface JigResult {
  /** The one that deserves most care first. */
  readonly mounts: readonly JigMount[];
  readonly angles: Readonly<Record<keyof ReadingRates, Spread>>;
  /** Share of the sampled corners whose toe and camber are within what is asked. */
  readonly shareWithin: number;
  /** Samples of which the parts did not go together. */
  readonly notTogether: number;
  readonly clearances: readonly ClearanceSpread[];
}

const READINGS = ["toe_deg", "camber_deg", "halfTrack_mm", "wheelbaseShift_mm"] as const;
/** Farther than this is hardly a tolerance, mm. */
const HARDLY_mm = 100;
/** The share that is right is known to a third of a percent then (binomial, three deviations of a half); more fill the memory. */
const MOST_SAMPLES = 100_000;

/**
 * How exactly each mount has to be placed, bolted up, at ride height; and what all tolerances together do to the angles and to every
 * clearance: worst case, and corners drawn at random, every mount evenly within its tolerance along each direction. The same seed
 * gives the same result. Throws InputError, and StudyStopped.
 */
export function planJig(
  request: JigRequest,
  onProgress: (progress: { readonly done: number; readonly total: number }) => void = () => {},
  isCancelled: () => boolean = () => false,
): JigResult {
  const { document, accuracy_mm, samples, seed } = request;
  if (samples > MOST_SAMPLES)
    throw new InputError(
      "too-large",
      { path: "samples" },
      `${samples} corners drawn at random`,
      `at most ${MOST_SAMPLES}`,
    );
  const scene = resolveScene(document);
  const mounts = mountsOf(document, scene);
  for (const point of Object.keys(request.tolerance_mm)) {
    if (mounts.some((mount) => mount.point === point)) continue;
    const known = mounts.map((mount) => mount.point).join(", ");
    throw new InputError("missing-point", { path: "tolerance_mm" }, `no member is held at "${point}"`, known);
  }
  const { corner, pose } = cornerAtRide(scene);
  const told = mounts.map((mount): JigMount => {
    const perMm = mountRates(corner, mount, pose);
    if (!perMm)
      throw new InputError("out-of-reach", { path: "members" }, "the corner locks at ride height", "one that moves");
    const tolerance_mm =
      request.tolerance_mm[mount.point] ?? scene.points.get(mount.point)?.tolerance_mm ?? accuracy_mm;
    return jigMount(mount.point, perMm, tolerance_mm, request);
  });
  const offsets = drawOffsets(told, samples, seed);
  const base = readCorner(corner, pose, "rest");
  const changes = READINGS.map((): number[] => []);
  let within = 0;
  let notTogether = 0;
  for (const sample of offsets) {
    if (isCancelled()) throw new StudyStopped();
    const readings = readingsAt(document, scene, told, sample);
    if (!readings) {
      notTogether++;
      continue;
    }
    READINGS.forEach((key, i) => {
      changes[i]!.push(readings[key] - base[key]);
    });
    const toe = Math.abs(readings.toe_deg - base.toe_deg) <= request.toeWithin_deg;
    const camber = Math.abs(readings.camber_deg - base.camber_deg) <= request.camberWithin_deg;
    if (toe && camber) within++;
  }
  const angles = Object.fromEntries(READINGS.map((key, i) => [key, spreadOf(told, key, changes[i]!)]));
  return {
    mounts: told.toSorted((a, b) => (a.closest_mm ?? Infinity) - (b.closest_mm ?? Infinity)),
    angles: angles as JigResult["angles"],
    shareWithin: samples > 0 ? within / samples : 0,
    notTogether,
    clearances: request.withClearances ? clearanceSpreads(request, told, offsets, onProgress, isCancelled) : [],
  };
}

function jigMount(point: string, perMm: MountRates, tolerance_mm: number, request: JigRequest): JigMount {
  const within = (direction: Direction): number | null => {
    const { toe_deg, camber_deg } = perMm[direction];
    const most = Math.min(request.toeWithin_deg / Math.abs(toe_deg), request.camberWithin_deg / Math.abs(camber_deg));
    return most < HARDLY_mm ? most : null;
  };
  const within_mm = { forward: within("forward"), out: within("out"), up: within("up") };
  const found = Object.values(within_mm).filter((value) => value !== null);
  const closest_mm = found.length > 0 ? Math.min(...found) : null;
  return {
    point,
    perMm,
    within_mm,
    closest_mm,
    tolerance_mm,
    wantsAdjuster: closest_mm !== null && closest_mm < request.accuracy_mm,
  };
}

/** Of every sample, of every mount, how far it is off. */
function drawOffsets(mounts: readonly JigMount[], samples: number, seed: number): Vec3[][] {
  const random = seededRandom(seed);
  return Array.from({ length: samples }, () =>
    mounts.map(({ tolerance_mm }): Vec3 => {
      const off = () => tolerance_mm * (2 * random() - 1);
      return [off(), off(), off()];
    }),
  );
}

function readingsAt(document: SceneDocument, scene: Scene, mounts: readonly JigMount[], offsets: readonly Vec3[]) {
  const moved = mounts.reduce((doc, { point }, i) => {
    const { at, boltedUpAt } = scene.points.get(point)!;
    return withBoltedUp(doc, point, add(boltedUpAt ?? at, offsets[i]!));
  }, withoutParts(document));
  try {
    const corner = compileCorner(resolveScene(moved), scene.sides[0]!);
    return readCorner(corner, corner.ridePose, "rest");
  } catch (error) {
    if (error instanceof InputError && error.code === "out-of-reach") return null;
    throw error;
  }
}

/** What the angles hang on. */
function withoutParts(document: SceneDocument): SceneDocument {
  const { measures: _measures, setup: _setup, measured: _measured, ...rest } = document;
  const members = document.members.map(({ made: _made, ...member }) => ({ ...member, body: null }));
  return { ...rest, members, bodies: [], clearances: { default_mm: 0 } };
}

function spreadOf(mounts: readonly JigMount[], key: keyof ReadingRates, changes: readonly number[]): Spread {
  const parts = mounts.flatMap(({ perMm, tolerance_mm }) =>
    DIRECTIONS.map((direction) => Math.abs(perMm[direction][key]) * tolerance_mm),
  );
  return { ...stackOf(parts), sampled: quantiles(changes) };
}
