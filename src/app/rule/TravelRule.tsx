import { t } from "../text/text.ts";
import "./rule.css";
import type { Side } from "../../scene/scene.ts";
import type { Unit } from "../store/state.ts";
import { spokenTravel } from "../words/travel.ts";
import { type Band, bandAt, type StillTouch } from "./bands.ts";
import { RuleCaption } from "./RuleCaption.tsx";
import { RuleDrawing } from "./RuleDrawing.tsx";
import { ruleShape } from "./ruleShape.ts";
import { useRuleDrag } from "./useRuleDrag.ts";
import { useRuleKeys } from "./useRuleKeys.ts";

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

/** A steel rule beside a wheel: its flag is the wheel's travel, its painted lane where something touches or is tight. */
export function TravelRule(props: TravelRuleProps) {
  const { side, unit, height, large, range_mm, travel_mm } = props;
  const shape = ruleShape({ side, height, large, range_mm });
  const drag = useRuleDrag(shape, props);
  const onKeyDown = useRuleKeys(props);
  return (
    <>
      <div
        className="travel-rule"
        role="slider"
        tabIndex={0}
        aria-orientation="vertical"
        aria-label={t(`rule.label.${side}`)}
        aria-valuemin={Math.round(range_mm[0])}
        aria-valuemax={Math.round(range_mm[1])}
        aria-valuenow={Math.round(travel_mm * 10) / 10}
        aria-valuetext={t("rule.value", { travel: spokenTravel(travel_mm, unit), state: spokenState(props) })}
        style={{ width: shape.width, height }}
        onKeyDown={onKeyDown}
        {...drag}
      >
        <RuleDrawing {...props} shape={shape} />
      </div>
      <RuleCaption {...props} />
    </>
  );
}

/** "clash in an engine pose; engine and frame clash"; "clear" only where all is checked. */
function spokenState({ bands, travel_mm, still, anyPose, unchecked }: TravelRuleProps): string {
  const band = bandAt(bands, travel_mm);
  const here = band && t(`rule.${anyPose ? "hereInAPose" : "here"}.${band.kind}`);
  const frame = still && t(`rule.stillSpoken.${still.kind}`);
  if (here && frame) return t("rule.both", { here, still: frame });
  return here ?? frame ?? (unchecked ? t("rule.unchecked") : t("rule.clear"));
}
