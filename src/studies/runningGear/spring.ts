import { curveTravels } from "../../check/curves.ts";
import type { SideRun } from "../../check/tracks.ts";
import { type BarReading, readBar } from "../../kinematics/antiRollBar.ts";
import { type Corner, solveCorner } from "../../kinematics/corner.ts";
import { damperRatioRate_per_mm } from "../../kinematics/derivatives.ts";
import { readCorner } from "../../kinematics/readings.ts";
import {
  rideFrequency_Hz,
  STANDARD_GRAVITY,
  springAtRide,
  sprungMass_kg,
  wheelRate_N_per_mm,
} from "../../kinematics/spring.ts";
import type { Scene, Side } from "../../scene/scene.ts";

/** Below this angle between drop link and arm the bar is near going over centre: common practice, no source. */
export const LEAST_LINK_deg = 30;

/** Damper and spring at one travel; null: not known for want of spring or mass, or no damper. */
export interface SpringState {
  readonly travel_mm: number;
  readonly damper_mm: number | null;
  /** Damper's shortening per wheel travel; its inverse, wheel per damper, is in use too. */
  readonly ratio: number | null;
  readonly ratioRate_per_mm: number | null;
  readonly spring_mm: number | null;
  /** In the spring, compression positive; 0 where it is off its seat. */
  readonly springForce_N: number | null;
  /** At the wheel, of the spring alone: force times ratio. */
  readonly wheelForce_N: number | null;
  /** Of the spring alone: rate × ratio², the term of the changing ratio, and both. */
  readonly ofSpring_N_per_mm: number | null;
  readonly ofRatio_N_per_mm: number | null;
  readonly wheelRate_N_per_mm: number | null;
  /** The bump stop presses as well: its rate is not known and not in these. */
  readonly isOnStop: boolean;
}

export interface BarAt {
  readonly travel_mm: number;
  /** Of the arm, from the drawn position; the bar twists by this less the other side's. */
  readonly turn_deg: number;
  readonly link_deg: number;
  readonly lever_mm: number;
}

export interface SpringStudy {
  readonly side: Side;
  readonly ride: SpringState;
  /** On the scale, of it sprung, and what it weighs. */
  readonly cornerMass_kg: number | null;
  readonly sprungMass_kg: number | null;
  readonly staticLoad_N: number | null;
  /** The unsprung mass is not told: the whole corner is taken as sprung, and the frequency reads low. */
  readonly takesAllAsSprung: boolean;
  readonly frequency_Hz: number | null;
  /** How far the spring is pressed at ride height and with the damper fully open (below 0: so far off its seat). */
  readonly pressedAtRide_mm: number | null;
  readonly pressedOpen_mm: number | null;
  readonly isMeasured: boolean;
  /** What the spring as measured carries at the wheel less what rides on it, kg; null unless both are told. */
  readonly carriesMore_kg: number | null;
  readonly curve: readonly SpringState[];
  readonly bar: {
    readonly curve: readonly BarAt[];
    readonly nearest: BarAt;
    readonly isNearCentre: boolean;
  } | null;
}

/** One side's damper, spring and bar at the scene's steps. Nothing of the road: static, no friction, no damping. */
export function springStudy(scene: Scene, { corner, run }: SideRun): SpringStudy {
  const { damper, loads } = scene;
  const { side } = corner;
  const travels = curveTravels(scene.travel, run);
  const known = springAtRide(corner);
  const rideLength_mm = readCorner(corner, corner.ridePose, "rest").damper_mm;
  const read = (travel_mm: number) => springState(corner, travel_mm, known, rideLength_mm);
  const ride = read(0);
  const mass_kg = sprungMass_kg(corner);
  const cornerMass_kg = loads.cornerMass_kg[side];
  const free_mm = damper?.springFree_mm ?? null;
  const pressedAtRide_mm = free_mm === null || known?.length_mm == null ? null : free_mm - known.length_mm;
  const carried_kg = known?.isMeasured && ride.wheelForce_N !== null ? ride.wheelForce_N / STANDARD_GRAVITY : null;
  return {
    side,
    ride,
    cornerMass_kg,
    sprungMass_kg: mass_kg,
    staticLoad_N: cornerMass_kg === null ? null : cornerMass_kg * STANDARD_GRAVITY,
    takesAllAsSprung: cornerMass_kg !== null && loads.unsprung_kg === null,
    frequency_Hz:
      ride.wheelRate_N_per_mm === null || mass_kg === null ? null : rideFrequency_Hz(ride.wheelRate_N_per_mm, mass_kg),
    pressedAtRide_mm,
    pressedOpen_mm:
      pressedAtRide_mm === null || !damper || rideLength_mm === null
        ? null
        : pressedAtRide_mm - (damper.open_mm - rideLength_mm),
    isMeasured: known?.isMeasured ?? false,
    carriesMore_kg: carried_kg === null || mass_kg === null ? null : carried_kg - mass_kg,
    curve: travels.map(read),
    bar: barStudy(corner, travels),
  };
}

function springState(
  corner: Corner,
  travel_mm: number,
  known: ReturnType<typeof springAtRide>,
  rideLength_mm: number | null,
): SpringState {
  const { damper } = corner.scene;
  const { damper_mm, damperRatio } = readCorner(corner, solveCorner(corner, travel_mm).pose, "rest");
  const ratioRate_per_mm = damperRatioRate_per_mm(corner, travel_mm);
  const rate = damper?.springRate_N_per_mm ?? null;
  const shortening_mm = damper_mm === null || rideLength_mm === null ? null : rideLength_mm - damper_mm;
  const at_N = known?.force_N ?? null;
  const springForce_N =
    at_N === null || rate === null || shortening_mm === null ? null : Math.max(0, at_N + rate * shortening_mm);
  const isLoose = springForce_N === 0;
  const isKnown = rate !== null && damperRatio !== null && ratioRate_per_mm !== null;
  const total =
    isKnown && springForce_N !== null
      ? wheelRate_N_per_mm(isLoose ? 0 : rate, damperRatio, springForce_N, ratioRate_per_mm)
      : null;
  const ofSpring = isKnown ? wheelRate_N_per_mm(isLoose ? 0 : rate, damperRatio, 0, 0) : null;
  return {
    travel_mm,
    damper_mm,
    ratio: damperRatio,
    ratioRate_per_mm,
    spring_mm: known?.length_mm == null || shortening_mm === null ? null : known.length_mm - shortening_mm,
    springForce_N,
    wheelForce_N: springForce_N === null || damperRatio === null ? null : springForce_N * damperRatio,
    ofSpring_N_per_mm: ofSpring,
    ofRatio_N_per_mm: total === null || ofSpring === null ? null : total - ofSpring,
    wheelRate_N_per_mm: total,
    isOnStop: damper_mm !== null && damper?.stopTouches_mm != null && damper_mm < damper.stopTouches_mm,
  };
}

function barStudy(corner: Corner, travels: readonly number[]): SpringStudy["bar"] {
  const curve = travels.flatMap((travel_mm): BarAt[] => {
    const bar: BarReading | null = readBar(corner, solveCorner(corner, travel_mm).pose);
    return bar ? [{ travel_mm, ...bar }] : [];
  });
  if (curve.length === 0) return null;
  const nearest = curve.reduce((worst, state) => (state.link_deg < worst.link_deg ? state : worst));
  return { curve, nearest, isNearCentre: nearest.link_deg < LEAST_LINK_deg };
}
