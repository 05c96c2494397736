import { t } from "../text/text.ts";
import "./rule.css";
import { spokenTravel } from "../words/travel.ts";
import { bandAt } from "./bands.ts";
import { RuleCaption } from "./RuleCaption.tsx";
import { RuleDrawing } from "./RuleDrawing.tsx";
import type { TravelRuleProps } from "./ruleProps.ts";
import { ruleShape } from "./ruleShape.ts";
import { useRuleDrag } from "./useRuleDrag.ts";
import { useRuleKeys } from "./useRuleKeys.ts";

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
