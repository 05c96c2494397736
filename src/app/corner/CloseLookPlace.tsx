import type { CSSProperties } from "react";
import type { PairVerdict } from "../../check/result.ts";
import type { Vec3 } from "../../maths/vec3.ts";
import { valueAt } from "../curves/linePath.ts";
import { GapMark } from "../marks/GapMark.tsx";
import { readingsOf } from "../rule/bands.ts";
import { viewHandle } from "../shell/viewHandle.ts";
import { isInPose } from "../store/state.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { CloseLook } from "../viewport/CloseLook.tsx";
import { closeLookDirection } from "../viewport/closeLookStyle.ts";
import { eyeText } from "../words/direction.ts";
import { amountText, pairAmount } from "../words/sentences.ts";
import { hiddenGroups, hiddenText } from "./groups.ts";
import type { Circle } from "./ViewLines.tsx";

interface CloseLookPlaceProps {
  readonly pair: PairVerdict;
  readonly touch: Vec3;
  readonly circle: Circle;
  /** On which side of the lens its tag stands. */
  readonly tagSide: "left" | "right";
}

const SPAN_mm = 190;

/** The touch from close by, with its depth or gap in words. */
export function CloseLookPlace({ pair, touch, circle, tagSide }: CloseLookPlaceProps) {
  const theme = useApp((state) => state.theme);
  const from = closeLookDirection(pair.partingOfA);
  const { radius } = circle;
  const text = useGapText(pair);
  const bodies = useApp((state) => state.bodies);
  const show = useApp((state) => state.show);
  const hidden = hiddenText(hiddenGroups(pair, bodies, show));
  return (
    <div className="close-look" style={{ left: circle.x - radius, top: circle.y - radius }}>
      <CloseLook
        viewport={viewHandle}
        at={touch}
        from={from}
        span_mm={SPAN_mm}
        pair={pair.keys}
        width={2 * radius}
        height={2 * radius}
        shape="round"
        theme={theme}
        label={t(`corner.closeLook.${hidden ? "labelHidden" : "label"}`, {
          eye: eyeText(from),
          gap: text,
          hidden: hidden ?? "",
        })}
      />
      <div className="view-tag" data-side={tagSide} style={{ "--beside": `${2 * radius - 18}px` } as CSSProperties}>
        <span className="view-tag-words">
          <GapMark kind={pair.verdict} size={20} />
          <b>{text}</b>
        </span>
        <small>{t("corner.closeLook.from", { eye: eyeText(from) })}</small>
        {hidden && <small className="hidden-groups">{hidden}</small>}
      </div>
    </div>
  );
}

/** The pair's gap where the wheel is now, as far as the check looked; elsewhere its worst. */
function useGapText(pair: PairVerdict): string {
  const unit = useApp((state) => state.unit);
  const isHere = useApp((state) => isInPose(pair.at, state.pose, state.share));
  const travel_mm = useApp((state) => state.travel_mm[pair.side === "right" ? "right" : "left"]);
  const still = pair.side === "both" || travel_mm === pair.at.travel_mm;
  if (isHere && !still && !pair.isAtLeast) {
    const gap_mm = valueAt(readingsOf(pair), travel_mm);
    if (gap_mm !== null) return gapText("about", gap_mm, amountText(gap_mm, unit));
  }
  return gapText(isHere || pair.isAtLeast ? "now" : "worst", pair.clearance_mm, pairAmount(pair, unit));
}

function gapText(when: "now" | "about" | "worst", gap_mm: number, amount: string): string {
  return t(`corner.gap.${when}.${gap_mm < 0 ? "deep" : "off"}`, { amount });
}
