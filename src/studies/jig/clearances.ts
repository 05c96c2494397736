import type { Vec3 } from "../../maths/vec3.ts";
import type { Side } from "../../scene/scene.ts";
import { PlaceStudy } from "../places/placeStudy.ts";
import { StudyStopped } from "../stopped.ts";
import type { JigMount, JigRequest } from "./jig.ts";
import { quantiles, stackOf } from "./stack.ts";

/** What the mounts' tolerances do to one clearance, at the travels and poses that are asked. */
export interface ClearanceSpread {
  readonly side: Side | "both";
  readonly a: string;
  readonly b: string;
  readonly required_mm: number;
  /** Every mount where it is meant to be. */
  readonly clearance_mm: number;
  /** How much smaller it may get: all errors the worst way, to first order; and as the root of the sum of squares. */
  readonly worst_mm: number;
  readonly rootSumSquares_mm: number;
  /** Least, 5 %, middle, 95 % and greatest of the sampled corners; gaps beyond those looked at count as the farthest. */
  readonly sampled_mm: readonly [number, number, number, number, number];
  /** Right as drawn, but not if all goes wrong: measure again, or place the mounts more closely. */
  readonly measureAgain: boolean;
}

/** Clearances are followed up to so much beyond what is required, mm. */
const LOOKED_AT_mm = 20;
const TRAVEL_STEP_mm = 10;
/** Step of the central differences, mm. */
const STEP_mm = 0.05;

/** Of every pair that hangs on a mount and is near enough; the one that may miss what it wants by most first. */
export function clearanceSpreads(
  request: JigRequest,
  mounts: readonly JigMount[],
  samples: readonly (readonly Vec3[])[],
  onProgress: (progress: { readonly done: number; readonly total: number }) => void,
  isCancelled: () => boolean,
): ClearanceSpread[] {
  const study = new PlaceStudy(
    {
      document: request.document,
      meshFiles: request.meshFiles,
      points: mounts.map(({ point }) => point),
      fit: "bolted",
      limits: {},
      leaveOut: [],
      travelStep_mm: TRAVEL_STEP_mm,
      marginUpTo_mm: LOOKED_AT_mm,
    },
    extremesOf(mounts.map(({ tolerance_mm }) => Math.max(tolerance_mm, STEP_mm))),
  );
  const pairs = study.reasons.filter((reason) => reason.kind === "clearance");
  const still = mounts.map((): Vec3 => [0, 0, 0]);
  const total = 1 + 6 * mounts.length + samples.length;
  let done = 0;
  const marginsAt = (offsets: readonly Vec3[]): Float64Array | null => {
    if (isCancelled()) throw new StudyStopped();
    const margins = new Float64Array(pairs.length);
    const isThere = study.margins(offsets, margins);
    onProgress({ done: ++done, total });
    return isThere ? margins : null;
  };
  const now = marginsAt(still)!;
  const parts = pairs.map((): number[] => []);
  mounts.forEach(({ tolerance_mm }, mount) => {
    for (let axis = 0; axis < 3; axis++) {
      const off = (by: number) =>
        marginsAt(
          still.map((offset, i) =>
            i === mount ? (offset.map((v, k) => (k === axis ? v + by : v)) as unknown as Vec3) : offset,
          ),
        );
      const [less, more] = [off(-STEP_mm), off(STEP_mm)];
      for (const [i, list] of parts.entries()) {
        list.push(less && more ? ((more[i]! - less[i]!) / (2 * STEP_mm)) * tolerance_mm : Number.NaN);
      }
    }
  });
  const sampled = pairs.map((): number[] => []);
  for (const offsets of samples) {
    const margins = marginsAt(offsets);
    if (margins) for (const [i, list] of sampled.entries()) list.push(margins[i]!);
  }
  return pairs
    .flatMap(({ side, a, b, required_mm }, i): ClearanceSpread[] => {
      if (!(now[i]! < LOOKED_AT_mm)) return [];
      const { worst, rootSumSquares } = stackOf(parts[i]!);
      return [
        {
          side,
          a,
          b,
          required_mm,
          clearance_mm: now[i]! + required_mm,
          worst_mm: worst,
          rootSumSquares_mm: rootSumSquares,
          sampled_mm: quantiles(sampled[i]!.map((margin) => margin + required_mm)),
          measureAgain: now[i]! >= 0 && now[i]! < worst,
        },
      ];
    })
    .sort((p, q) => p.clearance_mm - p.required_mm - p.worst_mm - (q.clearance_mm - q.required_mm - q.worst_mm));
}

/** Corners of the mounts' tolerances: all the same way, and each the other way than the rest. */
function extremesOf(reaches: readonly number[]): Vec3[][] {
  const corners = Array.from({ length: 8 }, (_, c) => [0, 1, 2].map((k) => ((c >> k) & 1 ? 1 : -1)) as unknown as Vec3);
  return corners.flatMap((corner) =>
    [-1, ...reaches.keys()].map((other) =>
      reaches.map((reach, i) => corner.map((sign) => (i === other ? -reach : reach) * sign) as unknown as Vec3),
    ),
  );
}
