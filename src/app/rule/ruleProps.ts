import type { Side } from "../../scene/scene.ts";
import type { Unit } from "../store/state.ts";
import type { Band, StillTouch } from "./bands.ts";

/** What a travel rule shows and tells; its pieces take what they need of it. */
export interface TravelRuleProps {
  readonly side: Side;
  readonly unit: Unit;
  readonly height: number;
  /** Larger print, for the thumb. */
  readonly large: boolean;
  /** The scene's travel, [droop end, bump end]. */
  readonly range_mm: readonly [number, number];
  /** The part of it that the corner reaches before it locks. */
  readonly reach_mm: readonly [number, number];
  readonly travel_mm: number;
  readonly bands: readonly Band[];
  /** Travel in which the chosen pair touches or is tight. */
  readonly held_mm: readonly [number, number] | null;
  /** What engine and frame do to each other in the shown engine pose, at every travel. */
  readonly still: StillTouch | null;
  /** The bands are over several engine poses. */
  readonly anyPose: boolean;
  /** Some pairs, or all, have no verdict yet: what is not painted is not known to be clear. */
  readonly unchecked: boolean;
  /** The bands belong to an older input than the one shown. */
  readonly stale: boolean;
  onTravel(travel_mm: number): void;
  onBand(band: Band): void;
  onStill(still: StillTouch): void;
  onSwipe?(): void;
}
