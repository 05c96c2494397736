import { memo } from "react";
import { t } from "../text/text.ts";
import type { PointInfo } from "./pointInfo.ts";
import { usePointsLook } from "./pointsStore.ts";
import { chooseMeaning, meaningFor } from "./usePointMove.ts";

export const MEANINGS = (["cut", "bolt", "measured"] as const).map((value) => ({
  value,
  name: t(`points.meaning.${value}.name`),
  says: t(`points.meaning.${value}.says`),
}));

/** What moving the point means for steel. What this point does not allow stays in view, with why. */
export const MeaningChooser = memo(function MeaningChooser({
  info,
  disabled = false,
}: {
  info: PointInfo;
  disabled?: boolean;
}) {
  const chosen = usePointsLook((look) => look.meaning);
  const meaning = meaningFor(info, chosen);
  const refusals = MEANINGS.map(({ value }) => info.refusals[value]).filter((refusal) => refusal !== null);
  return (
    <div className="meanings">
      <fieldset className="choices" aria-label={t("points.meaning.label")} disabled={disabled}>
        {MEANINGS.map(({ value, name }) => (
          <button
            key={value}
            type="button"
            aria-pressed={value === meaning}
            disabled={info.refusals[value] !== null}
            onClick={() => chooseMeaning(info, value)}
          >
            {name}
          </button>
        ))}
      </fieldset>
      <p className="small">{MEANINGS.find(({ value }) => value === meaning)?.says}</p>
      {refusals.map((refusal) => (
        <p key={refusal} className="fine quiet">
          {refusal}
        </p>
      ))}
    </div>
  );
});
