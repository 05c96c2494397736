import { useId } from "react";
import type { Meaning, PointInfo } from "./pointInfo.ts";
import { usePointsLook } from "./pointsStore.ts";
import { chooseMeaning, meaningFor } from "./usePointMove.ts";

export const MEANINGS: readonly { readonly value: Meaning; readonly name: string; readonly says: string }[] = [
  { value: "cut", name: "Cut to suit", says: "The wheel stays; parts on this point get new lengths." },
  { value: "bolt", name: "Bolt up", says: "Every part keeps its length; the wheel goes where they put it." },
  { value: "measured", name: "Measured again", says: "The drawing was wrong; nothing on the car moves." },
];

/** What moving the point means for steel. What this point does not allow is shown, with why. */
export function MeaningChooser({ info, disabled = false }: { info: PointInfo; disabled?: boolean }) {
  const chosen = usePointsLook((look) => look.meaning);
  const meaning = meaningFor(info, chosen);
  const name = useId();
  return (
    <fieldset className="meanings" disabled={disabled}>
      <legend className="unseen">What the move means</legend>
      {MEANINGS.map((option) => {
        const refusal = info.refusals[option.value];
        return (
          <label key={option.value} data-chosen={option.value === meaning} data-refused={refusal !== null}>
            <input
              type="radio"
              name={name}
              checked={option.value === meaning}
              disabled={refusal !== null}
              onChange={() => chooseMeaning(info, option.value)}
            />
            <span>
              <b>{option.name}</b> <small>{refusal ?? option.says}</small>
            </span>
          </label>
        );
      })}
    </fieldset>
  );
}
