import type { Vec3 } from "../../maths/vec3.ts";
import { NUDGES } from "../points/LengthField.tsx";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { lengthText } from "../words/number.ts";

interface ShiftRowsProps {
  readonly unit: Unit;
  /** How far it was moved so far. */
  readonly shift_mm: Vec3;
  onShift(by: Vec3): void;
}

/** The smaller ones: handles in the view go farther. */
const STEPS = [1, 5] as const;
const WAYS = ["forward", "left", "up"] as const;

/** Moves a part by steps. */
export function ShiftRows({ unit, shift_mm, onShift }: ShiftRowsProps) {
  return (
    <fieldset className="shift-rows">
      <legend>{t("parts.move")}</legend>
      {WAYS.map((way, axis) => (
        <div key={way} className="shift-row">
          <span>{t(`parts.ways.${way}`)}</span>
          {NUDGES[unit].slice(...STEPS).map((nudge, i) => [
            i === 2 && (
              <output key="sum" className="tabular">
                {lengthText(shift_mm[axis]!, unit, { signed: true })}
              </output>
            ),
            <button
              key={nudge.by_mm}
              type="button"
              className="nudge"
              data-unit={unit}
              aria-label={t("parts.nudge", { way: t(`parts.ways.${way}`), step: nudge.spoken })}
              onClick={() => onShift([0, 1, 2].map((j) => (j === axis ? nudge.by_mm : 0)) as unknown as Vec3)}
            >
              {nudge.text}
            </button>,
          ])}
        </div>
      ))}
    </fieldset>
  );
}
