import { memo } from "react";
import type { Meaning, PointInfo } from "./pointInfo.ts";
import { usePointsLook } from "./pointsStore.ts";
import { chooseMeaning, meaningFor } from "./usePointMove.ts";

export const MEANINGS: readonly { readonly value: Meaning; readonly name: string; readonly says: string }[] = [
  { value: "cut", name: "Cut to suit", says: "The wheel stays; parts on this point get new lengths." },
  { value: "bolt", name: "Bolt up", says: "Every part keeps its length; the wheel goes where they put it." },
  { value: "measured", name: "Measured again", says: "The drawing was wrong; nothing on the car moves." },
];

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
      <fieldset className="choices" aria-label="What the move means" disabled={disabled}>
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
