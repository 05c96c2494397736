import { useId } from "react";
import { angleOnLeg } from "../../studies/service/legs.ts";
import type { Swing } from "../../studies/service/reach.ts";
import type { WalkedStep } from "../../studies/service/walk.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { angleText, lengthText } from "../words/number.ts";
import { placeOnPath } from "./pathPoses.ts";
import { useServiceLook } from "./serviceStore.ts";

const STEPS = 200;

interface PathSliderProps {
  readonly steps: readonly WalkedStep[];
  /** Of a spanner; null: a path of steps. */
  readonly swing: Swing | null;
}

/** Takes the part along its path, or the spanner through its free swing, as far as it goes. */
export function PathSlider({ steps, swing }: PathSliderProps) {
  const unit = useApp((state) => state.unit);
  const along = useServiceLook((look) => look.along);
  const id = useId();
  let text: string;
  if (swing) text = angleText(along * swing.widest_deg, { digits: 0 });
  else {
    const { step, at_mm } = placeOnPath(steps, along);
    const { leg } = steps[step]!;
    const got =
      leg.kind === "straight" ? lengthText(at_mm, unit) : angleText(Math.abs(angleOnLeg(leg, at_mm)), { digits: 1 });
    text = t("service.out.play", { step: step + 1, got });
  }
  return (
    <div className="service-slider">
      <label htmlFor={id}>{t("service.out.along")}</label>
      <input
        id={id}
        type="range"
        min={0}
        max={STEPS}
        value={Math.round(along * STEPS)}
        aria-valuetext={text}
        onChange={(event) => useServiceLook.setState({ along: Number(event.target.value) / STEPS })}
      />
      <output htmlFor={id} className="tabular">
        {text}
      </output>
    </div>
  );
}
