import { useId, useState } from "react";
import type { LengthUnit } from "../../scene/meshFiles.ts";
import type { MeshRepair } from "../../scene/scene.ts";
import { SizeField } from "../parts/SizeField.tsx";
import { useApp } from "../store/useApp.ts";
import { countText } from "../text/formats.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { lengthText } from "../words/number.ts";
import { lookAs } from "./scanActions.ts";
import { useScan } from "./scanStore.ts";
import { doneText, faultSentences, reliesText, unitReason } from "./words.ts";

/** What unit the numbers are in, what is wrong with the mesh, and what of it is mended. */
export function FaultsStep() {
  const { read, unit, look, repair } = useScan();
  const shown = useApp((state) => state.unit);
  if (!read || !unit) return null;
  const faults = look ? faultSentences(look, shown) : [];
  return (
    <>
      <fieldset className="scan-units">
        <legend>{t("scans.unitsLabel")}</legend>
        {read.guess.readings.map((reading) => (
          <label key={reading.unit} className="check-line">
            <input
              type="radio"
              name="scan-unit"
              checked={unit === reading.unit}
              onChange={() => void lookAs(reading.unit as LengthUnit, null)}
            />
            <span>
              <b>{t(`scans.units.${reading.unit}`)}</b> <span className="quiet">{unitReason(reading)}</span>
            </span>
          </label>
        ))}
      </fieldset>
      {look && (
        <>
          <p className="scan-size tabular">
            {t("scans.size", {
              size: look.report.size_mm.map((size) => lengthText(size, shown)).join(" × "),
              number: countText(look.report.triangles),
            })}
          </p>
          <h3>{t("scans.found")}</h3>
          {faults.length === 0 ? (
            <p>{t("scans.noFault")}</p>
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
  { key: "weldWithin_mm", usual: 0.01 },
  { key: "straysBelow_mm", usual: 20 },
  { key: "holesUpTo_mm", usual: 50 },
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
      <legend>{t("scans.repairsLabel")}</legend>
      {KINDS.map(({ key, usual }) => (
        <div key={key} className="scan-repair">
          <label className="check-line" htmlFor={`${id}-${key}`}>
            <input
              id={`${id}-${key}`}
              type="checkbox"
              checked={draft[key] !== undefined}
              onChange={(event) => change(key, event.target.checked ? (suggested?.[key] ?? usual) : undefined)}
            />
            <span>
              <Rich text={t(`scans.repairs.${key}.full`)} />
            </span>
          </label>
          {draft[key] !== undefined && (
            <SizeField
              label={t(`scans.repairs.${key}.label`)}
              value_mm={draft[key]}
              unit={shown}
              trouble={draft[key] > 0 ? null : t("scans.moreThanNothing")}
              onChange={(value) => change(key, value)}
            />
          )}
        </div>
      ))}
      <div className="scan-row">
        {suggested && (
          <button type="button" className="button" onClick={() => take(suggested)}>
            {t("scans.mendFound")}
          </button>
        )}
        <button
          type="button"
          className="button"
          disabled={!isOther || Object.values(draft).some((value) => !(value > 0))}
          onClick={() => take(draft)}
        >
          {t("scans.mendLikeThis")}
        </button>
      </div>
    </fieldset>
  );
}
