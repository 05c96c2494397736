import { prepareCheck } from "../../check/check.ts";
import { placedPose } from "../../kinematics/powertrain.ts";
import { applyPose, composePoses, invertPose, type Pose, rotationPose, translationPose } from "../../maths/pose.ts";
import { add, distance, length, mix, scale, subtract, type Vec3 } from "../../maths/vec3.ts";
import { fine, fineNumber } from "../../scene/recipes/recipe.ts";
import { resolveScene } from "../../scene/resolve.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Fit } from "../places/move.ts";
import { type Alteration, altered, TURNS, type Turn } from "./alter.ts";
import type { AlterationRequest, FoundAlteration } from "./alterations.ts";
import { AXES, smallestAlong, smallestAmount, smallestFree } from "./search.ts";
import type { WholeAsker } from "./wholeAsker.ts";

const TURN_STEP_deg = 0.25;
const TURN_FINE_deg = 0.02;
const FARTHEST_TURN_deg = 5;
const LATTICE_SHARE = 1 / 8;
/** What a measured depth may lack of the deepest, as a share. */
const DEPTH_SHARE = 0.9;
/** What a measured gap may exceed the least, mm. */
const GAP_mm = 0.05;
/** Limits that cutting the driveshaft to suit can mend. */
const SHAFT_LENGTH = "shaft-length";

/**
 * The smallest shifts and turns of the powertrain as one that clear the targets, the driveshaft as it is; where its length refused
 * places, with its bar cut to suit too. None where a target does not hang on the powertrain.
 */
export class PowertrainWays {
  private readonly request: AlterationRequest;
  private readonly scene: Scene;
  private readonly asker: WholeAsker;
  /** Corners of the boxes about what it carries, in its place at rest. */
  private readonly corners: readonly Vec3[];
  private readonly isAsked: boolean;
  /** A way shorter than this clears nothing. */
  private readonly least_mm: number;
  private readonly seen: Seen[] = [];
  /** Shifts at which two parts overlap, and how much farther on they may be clear at the nearest. */
  private readonly buried: { readonly at: Vec3; readonly least_mm: number }[] = [];

  constructor(request: AlterationRequest, asker: WholeAsker) {
    const { document, meshFiles, targets } = request;
    this.request = request;
    this.scene = resolveScene(document);
    this.asker = asker;
    const { bodies } = prepareCheck(this.scene, meshFiles);
    const carried = bodies.filter(({ mount }) => mount === "powertrain");
    const placed = placedPose(this.scene);
    this.corners = carried.flatMap(({ solid }) => boxCorners(solid.positions).map((p) => applyPose(placed, p)));
    const moving = new Set([...carried.map(({ id }) => id), "driveshaft"]);
    this.isAsked = carried.length > 0 && targets.every(({ a, b }) => moving.has(a) || moving.has(b));
    // a shift takes no two surfaces farther apart than itself; past its joint the driveshaft may go farther
    const lacking = targets.map(({ a, b, clearance_mm, required_mm }) => {
      if (a === "driveshaft" || b === "driveshaft") return 0;
      return required_mm - (clearance_mm < 0 ? clearance_mm * DEPTH_SHARE : clearance_mm) - GAP_mm;
    });
    this.least_mm = Math.max(0, ...lacking);
  }

  shifts(): FoundAlteration[] {
    if (!this.isAsked) return [];
    const { within_mm } = this.request;
    return this.inFits((fit) => {
      const clears = (by: Vec3) =>
        length(by) >= this.least_mm && this.clears({ kind: "shifted", by: fine(by), fit }, translationPose(by));
      const alongAxes = AXES.map((axis) => smallestAlong(axis, within_mm, clears)).filter((by) => by !== null);
      const shortest = Math.min(within_mm, ...alongAxes.map(length));
      const free = smallestFree(shortest, within_mm * LATTICE_SHARE, clears);
      return [...alongAxes, ...(free ? [free] : [])].map((by) => ({
        alteration: { kind: "shifted", by: fine(by), fit },
        fit,
        way_mm: length(by),
      }));
    });
  }

  turns(): FoundAlteration[] {
    if (!this.isAsked) return [];
    const about = this.turnedAbout();
    return this.inFits((fit) =>
      TURNS.flatMap((turn) => [1, -1].flatMap((sign) => this.smallestTurn(turn, sign, about, fit))),
    );
  }

  private smallestTurn(turn: Turn, sign: number, about: Vec3, fit: Fit): FoundAlteration[] {
    const k = TURNS.indexOf(turn);
    const axis = [0, 1, 2].map((i) => (i === k ? 1 : 0)) as unknown as Vec3;
    const arm_mm = Math.max(...this.corners.map((p) => Math.hypot(...subtract(p, about).filter((_, i) => i !== k))));
    const wayOf = (deg: number) => 2 * arm_mm * Math.sin((deg * Math.PI) / 360);
    const as = (deg: number): Alteration => ({ kind: "turned", turn, by_deg: fineNumber(sign * deg), about, fit });
    const most = { step: TURN_STEP_deg, reach: FARTHEST_TURN_deg, fine: TURN_FINE_deg };
    const deg = smallestAmount(most, (tried) => {
      if (wayOf(tried) < this.least_mm) return false;
      return this.clears(as(tried), rotationPose(axis, (sign * tried * Math.PI) / 180, about));
    });
    return deg === null ? [] : [{ alteration: as(deg), fit, way_mm: wayOf(deg) }];
  }

  /** Where the place's own point has come to be; else where its last motion turns; else its middle. */
  private turnedAbout(): Vec3 {
    const { place, poses } = this.scene.powertrain;
    if (place) return add(place.about, place.shift_mm);
    const rocking = poses.findLast(({ id }) => id !== "rest");
    return fine(rocking?.about ?? middleOf(this.corners));
  }

  private inFits(find: (fit: Fit) => FoundAlteration[]): FoundAlteration[] {
    this.asker.passed.delete(SHAFT_LENGTH);
    const bolted = find("bolted");
    return this.asker.passed.has(SHAFT_LENGTH) ? [...bolted, ...find("cut")] : bolted;
  }

  /** `way`: where it takes what stands in its place at rest now. */
  private clears(alteration: Alteration, way: Pose): boolean {
    if (this.seen.some((seen) => staysTooClose(seen, way))) return false;
    const by = alteration.kind === "shifted" ? alteration.by : null;
    if (by && this.buried.some(({ at, least_mm }) => distance(at, by) < least_mm)) return false;
    const clears = this.asker.clears(altered(this.request.document, alteration));
    if (!clears) this.remember(way, by);
    return clears;
  }

  private remember(way: Pose, by: Vec3 | null): void {
    const { refusal } = this.asker;
    if (!refusal) return;
    const { planned, swept } = refusal;
    const mounts = [planned.first.mount, planned.second.mount];
    const isFirst = mounts[0] === "powertrain";
    const stands = mounts[isFirst ? 1 : 0]!;
    if (!mounts.includes("powertrain") || stands === "driveshaft") return;
    const need_mm = planned.required_mm + planned.within_mm - GAP_mm;
    if (swept.clearance_mm < 0) {
      // no shift shorter than the depth parts them, nor one that is longer by less than they want
      if (by) this.buried.push({ at: by, least_mm: need_mm - swept.clearance_mm * DEPTH_SHARE });
      return;
    }
    const [own, other] = isFirst ? [swept.pointA, swept.pointB] : [swept.pointB, swept.pointA];
    const rocked = this.rocked(swept.at);
    const point = applyPose(invertPose(composePoses(rocked, way)), own);
    this.seen.push({ point, rocked, other, need_mm });
  }

  /** From its place at rest to a pose, or part of the way there. */
  private rocked({ pose, share = 1 }: { readonly pose: string; readonly share?: number }): Pose {
    const { about, axis, angle_deg, shift_mm } = this.scene.powertrain.poses.find(({ id }) => id === pose)!;
    const turned = rotationPose(axis, (share * angle_deg * Math.PI) / 180, about);
    return composePoses(translationPose(scale(shift_mm, share)), turned);
  }
}

/** A place of the powertrain's surface in its place at rest as it is now, and one that it came too close to. */
interface Seen {
  readonly point: Vec3;
  readonly rocked: Pose;
  readonly other: Vec3;
  readonly need_mm: number;
}

/** Two points that stay on two surfaces are nearer to each other than the surfaces may be: no need to ask. */
function staysTooClose({ point, rocked, other, need_mm }: Seen, way: Pose): boolean {
  return distance(applyPose(rocked, applyPose(way, point)), other) < need_mm;
}

function boxCorners(positions: ArrayLike<number>): Vec3[] {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < positions.length; i++) {
    low[i % 3] = Math.min(low[i % 3]!, positions[i]!);
    high[i % 3] = Math.max(high[i % 3]!, positions[i]!);
  }
  return Array.from({ length: 8 }, (_, c) => [0, 1, 2].map((k) => ((c >> k) & 1 ? high : low)[k]!) as unknown as Vec3);
}

function middleOf(corners: readonly Vec3[]): Vec3 {
  const [low, high] = [Math.min, Math.max].map(
    (pick) => [0, 1, 2].map((k) => pick(...corners.map((p) => p[k]!))) as unknown as Vec3,
  ) as [Vec3, Vec3];
  return mix(low, high, 0.5);
}
