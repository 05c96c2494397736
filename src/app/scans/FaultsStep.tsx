import { useId, useState } from "react";
import type { LengthUnit } from "../../scene/meshFiles.ts";
import type { MeshRepair } from "../../scene/scene.ts";
import { SizeField } from "../parts/SizeField.tsx";
import { useApp } from "../store/useApp.ts";
import { lengthText } from "../words/number.ts";
import { lookAs } from "./scanActions.ts";
import { useScan } from "./scanStore.ts";
import { count, doneText, faultSentences, reliesText, UNIT_NAMES, unitReason } from "./words.ts";

/** What unit the numbers are in, what is wrong with the mesh, and what of it is mended. */
export function FaultsStep() {
  const { read, unit, look, repair } = useScan();
  const shown = useApp((state) => state.unit);
  if (!read || !unit) return null;
  const faults = look ? faultSentences(look, shown) : [];
  return (
    <>
      <fieldset className="scan-units">
        <legend>The numbers in the file are</legend>
        {read.guess.readings.map((reading) => (
          <label key={reading.unit} className="check-line">
            <input
              type="radio"
              name="scan unit"
              checked={unit === reading.unit}
              onChange={() => void lookAs(reading.unit as LengthUnit, null)}
            />
            <span>
              <b>{UNIT_NAMES[reading.unit]}</b> <span className="quiet">{unitReason(reading)}</span>
            </span>
          </label>
        ))}
      </fieldset>
      {look && (
        <>
          <p className="scan-size tabular">
            {look.report.size_mm.map((size) => lengthText(size, shown)).join(" × ")}, {count(look.report.triangles)}{" "}
            triangles
          </p>
          <h3>What was found</h3>
          {faults.length === 0 ? (
            <p>Nothing: one closed surface.</p>
          ) : (
            <ul className="scan-faults">
              {faults.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          )}
          <Repairs key={unit} unit={unit} repair={repair} suggested={look.report.suggested} />
          <p role="status">{doneText(look)}</p>
          <p className="quiet">{reliesText(look.isClosed)}</p>
        </>
      )}
    </>
  );
}

const KINDS = [
  { key: "weldWithin_mm", label: "Join corners nearer than", usual: 0.01, says: "for seams that do not quite meet" },
  { key: "straysBelow_mm", label: "Leave out loose pieces under", usual: 20, says: "dust, and things behind it" },
  { key: "holesUpTo_mm", label: "Close flat holes up to", usual: 50, says: "with a flat lid; uneven ones stay open" },
] as const;

interface RepairsProps {
  readonly unit: LengthUnit;
  readonly repair: MeshRepair | null;
  readonly suggested: MeshRepair | null;
}

function Repairs({ unit, repair, suggested }: RepairsProps) {
  const shown = useApp((state) => state.unit);
  const [draft, setDraft] = useState<MeshRepair>(repair ?? {});
  const id = useId();
  const change = (key: keyof MeshRepair, value: number | undefined) => {
    const { [key]: _, ...rest } = draft;
    setDraft(value === undefined ? rest : { ...rest, [key]: value });
  };
  const isOther = JSON.stringify(draft) !== JSON.stringify(repair ?? {});
  const take = (next: MeshRepair) => {
    setDraft(next);
    void lookAs(unit, Object.keys(next).length > 0 ? next : null);
  };
  return (
    <fieldset className="scan-repairs">
      <legend>Mend it for the check; the file stays as it is</legend>
      {KINDS.map(({ key, label, usual, says }) => (
        <div key={key} className="scan-repair">
          <label className="check-line" htmlFor={`${id}-${key}`}>
            <input
              id={`${id}-${key}`}
              type="checkbox"
              checked={draft[key] !== undefined}
              onChange={(event) => change(key, event.target.checked ? (suggested?.[key] ?? usual) : undefined)}
            />
            <span>
              {label} <span className="quiet">({says})</span>
            </span>
          </label>
          {draft[key] !== undefined && (
            <SizeField
              label={label}
              value_mm={draft[key]}
              unit={shown}
              trouble={draft[key] > 0 ? null : "more than nothing"}
              onChange={(value) => change(key, value)}
            />
          )}
        </div>
      ))}
      <div className="scan-row">
        {suggested && (
          <button type="button" className="button" onClick={() => take(suggested)}>
            Mend what was found
          </button>
        )}
        <button
          type="button"
          className="button"
          disabled={!isOther || Object.values(draft).some((value) => !(value > 0))}
          onClick={() => take(draft)}
        >
          Mend like this
        </button>
      </div>
    </fieldset>
  );
}
