import { memo, useMemo, useState } from "react";
import type { Side } from "../../scene/scene.ts";
import { bandsOfSide, stillTouch, stretchOf } from "../rule/bands.ts";
import { TravelRule } from "../rule/TravelRule.tsx";
import type { Layout } from "../shell/useLayout.ts";
import { findPair } from "../store/sessionActions.ts";
import { travelReach } from "../store/travelReach.ts";
import { app, useApp, useAppLater } from "../store/useApp.ts";
import { t } from "../text/text.ts";

interface WheelRulesProps {
  readonly layout: Layout;
  /** Where the rules stand in the view, px. */
  readonly top: number;
  readonly height: number;
}

/** A rule beside each wheel, at the view's outer edges; on a phone one side's, the other a swipe away. */
export function WheelRules({ layout, top, height }: WheelRulesProps) {
  const sides = useAppLater((state) => state.scene?.sides);
  const chosenSide = useApp((state) => (state.chosenPair === null ? null : findPair(state, state.chosenPair)?.side));
  const [phoneSide, setPhoneSide] = useState<Side>("left");
  const [seenChoice, setSeenChoice] = useState(chosenSide);
  if (chosenSide !== seenChoice) {
    setSeenChoice(chosenSide);
    if (chosenSide === "left" || chosenSide === "right") setPhoneSide(chosenSide);
  }
  const other: Side = phoneSide === "left" ? "right" : "left";
  if (!sides) return null;
  const shown = layout === "phone" ? sides.filter((side) => side === phoneSide || sides.length === 1) : sides;
  const canSwipe = layout === "phone" && sides.length === 2;
  return (
    <>
      {shown.map((side) => (
        <div key={side} className="rule-stand" data-side={side} style={{ top }}>
          <WheelRule
            side={side}
            height={height}
            large={layout !== "wide"}
            onSwipe={canSwipe ? () => setPhoneSide(other) : undefined}
          />
        </div>
      ))}
      {canSwipe && (
        <button type="button" className="button other-rule" onClick={() => setPhoneSide(other)}>
          {t(`corner.otherWheel.${other}`)}
        </button>
      )}
    </>
  );
}

interface WheelRuleProps {
  readonly side: Side;
  readonly height: number;
  readonly large: boolean;
  readonly onSwipe: (() => void) | undefined;
}

const WheelRule = memo(function WheelRule({ side, height, large, onSwipe }: WheelRuleProps) {
  // verdicts come often while a point is pulled; what follows the hand goes first
  const scene = useAppLater((state) => state.scene);
  const result = useAppLater((state) => state.result);
  const unit = useApp((state) => state.unit);
  const stale = useAppLater((state) => state.stale);
  const travel_mm = useApp((state) => state.travel_mm[side]);
  const chosen = useApp((state) => (state.chosenPair === null ? undefined : findPair(state, state.chosenPair)));
  const bands = useMemo(() => (result ? bandsOfSide(result.pairs, side) : []), [result, side]);
  const pose = useApp((state) => state.pose);
  const partial = useAppLater((state) => state.partial);
  const still = useMemo(() => (result ? stillTouch(result.pairs, pose) : null), [result, pose]);
  if (!scene) return null;
  return (
    <TravelRule
      side={side}
      unit={unit}
      height={height}
      large={large}
      range_mm={[-scene.travel.droop_mm, scene.travel.bump_mm]}
      reach_mm={travelReach({ scene }, side)}
      travel_mm={travel_mm}
      bands={bands}
      held_mm={chosen?.side === side ? stretchOf(chosen) : null}
      still={still}
      anyPose={scene.powertrain.poses.length > 1}
      unchecked={result === null || partial}
      stale={stale}
      onTravel={(to_mm) => app.getState().setTravel(side, to_mm)}
      onBand={(band) => app.getState().choosePair(band.worst)}
      onStill={({ worst }) => app.getState().choosePair(worst)}
      onSwipe={onSwipe}
    />
  );
});
