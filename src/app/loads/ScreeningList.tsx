import { useState } from "react";
import type { LoadsReport } from "../../loads/report.ts";
import type { CheckName, Missing, ScreenRow, UnknownRow } from "../../loads/screen/finding.ts";
import { MATERIALS } from "../../loads/screen/materials.ts";
import type { Loads } from "../../scene/loadRecords.ts";
import type { Scene } from "../../scene/scene.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { numberText } from "../words/number.ts";
import { travelText } from "../words/travel.ts";
import { type ListName, type LoadsForm, openForm } from "./formsStore.ts";
import { goThere } from "./goThere.ts";
import { useLoadsTold } from "./loadsStore.ts";
import { caseText, memberOf, missingText, partText } from "./partNames.ts";
import { figureText, inputName } from "./quantity.ts";

interface ScreeningListProps {
  readonly scene: Scene;
  readonly loads: Loads;
  readonly report: LoadsReport;
}

/** What the scene gives sizes for, the smallest factor first; then what is not known, with what to ask for. */
export function ScreeningList({ scene, loads, report }: ScreeningListProps) {
  const stale = useLoadsTold((told) => told.stale);
  const [open, setOpen] = useState<string | null>(null);
  const { rows, unknown } = report.screening;
  const toggle = (key: string) => setOpen(open === key ? null : key);
  return (
    <>
      {stale && <p className="stale-line">{t("loads.beforeChange")}</p>}
      <p className="tool-note">{rows.length > 0 ? t("loads.screening.lead") : t("loads.screening.none")}</p>
      {rows.length > 0 && (
        <ul className="screen-list" aria-label={t("loads.screening.name")} data-stale={stale}>
          {rows.map((row) => {
            const key = `${row.part}|${row.check}`;
            return (
              <li key={key}>
                <ScreenRowView
                  row={row}
                  scene={scene}
                  loads={loads}
                  isOpen={open === key}
                  onPress={() => toggle(key)}
                />
              </li>
            );
          })}
        </ul>
      )}
      {unknown.length > 0 && (
        <>
          <h3 className="loads-title">{t("loads.screening.unknown")}</h3>
          <p className="tool-note">{t("loads.screening.unknownLead")}</p>
          <ul className="screen-list" aria-label={t("loads.screening.unknown")}>
            {unknown.map((row) => (
              <li key={row.part}>
                <UnknownView row={row} scene={scene} isOpen={open === row.part} onPress={() => toggle(row.part)} />
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}

interface ScreenRowProps {
  readonly row: ScreenRow;
  readonly scene: Scene;
  readonly loads: Loads;
  readonly isOpen: boolean;
  onPress(): void;
}

const VERDICTS = { "below target": "below", "reaches target": "reaches", "no target": "none" } as const;

function ScreenRowView({ row, scene, loads, isOpen, onPress }: ScreenRowProps) {
  const verdict = VERDICTS[row.verdict];
  return (
    <>
      <button type="button" className="screen-row" data-verdict={verdict} aria-expanded={isOpen} onClick={onPress}>
        <span className="screen-factor tabular">
          {t("loads.screening.factor", { factor: numberText(row.factor, { digits: row.factor < 100 ? 2 : 0 }) })}
        </span>
        <span className="screen-words">
          {t("loads.screening.row", {
            part: partText(row.part, scene),
            check: t(`loads.screening.checks.${row.check}`),
          })}
          <small>
            {verdict === "below" && <BelowMark />}
            {t(`loads.screening.verdicts.${verdict}`, { target: String(row.target) })}
          </small>
        </span>
      </button>
      {isOpen && <RowDetails row={row} scene={scene} loads={loads} />}
    </>
  );
}

/** A hollow diamond: the mark of a limit. */
function BelowMark() {
  return (
    <svg className="below-mark" width="12" height="12" viewBox="0 0 12 12" aria-hidden="true">
      <path d="M6 1L11 6L6 11L1 6Z" />
    </svg>
  );
}

const FORM_OF: Readonly<Record<CheckName, ListName>> = {
  tension: "tubes",
  compression: "tubes",
  "bolt shear": "bolts",
  "plate bearing": "plates",
  "tear-out": "plates",
  "beside the hole": "plates",
  "net section": "plates",
  weld: "welds",
  "joint rating": "ratings",
};

function RowDetails({ row, scene, loads }: Pick<ScreenRowProps, "row" | "scene" | "loads">) {
  const unit = useApp((state) => state.unit);
  const { at, check, governedBy, source, told } = row;
  const place = t("loads.table.at", {
    case: caseText(at.case, loads.cases === null),
    where: travelText(at.travel_mm, unit),
  });
  return (
    <div className="screen-details">
      <dl>
        <dt>{t("loads.screening.formula")}</dt>
        <dd>
          {governedBy && <>{t(`loads.screening.governed.${governedBy}`)}: </>}
          <span className="formula">{row.formula}</span>
        </dd>
        <dt>{t("loads.screening.source")}</dt>
        <dd>{t(`loads.sources.${source}`, { told: told ?? "" })}</dd>
        <dt>{t("loads.screening.inputs")}</dt>
        <dd>
          <Inputs inputs={row.inputs} loads={loads} />
        </dd>
        <dt>{t("loads.screening.at")}</dt>
        <dd>
          {t(`loads.sides.${at.side}`)}, {place}
        </dd>
      </dl>
      {row.notes.map((note) => (
        <p key={note} className="tool-note">
          {t(`loads.notes.${note}`)}
        </p>
      ))}
      <div className="tool-buttons">
        <button type="button" className="button" onClick={() => goThere(at)}>
          {t("loads.details.go")}
        </button>
        <button
          type="button"
          className="button"
          onClick={() => openForm({ what: FORM_OF[check], of: memberOf(row.part, scene) ?? row.part })}
        >
          {t("loads.screening.change")}
        </button>
      </div>
    </div>
  );
}

function Inputs({ inputs, loads }: { inputs: ScreenRow["inputs"]; loads: Loads }) {
  return (
    <ul className="screen-inputs">
      {Object.entries(inputs).map(([key, value]) => {
        const { sign, unit } = inputName(key);
        return (
          <li key={key}>
            {typeof value === "number" ? (
              <>
                <i>{sign}</i> <span className="tabular">{figureText(value)}</span> {unit}
              </>
            ) : (
              inputText(key, value, loads)
            )}
          </li>
        );
      })}
    </ul>
  );
}

function inputText(key: string, value: string, loads: Loads): string {
  if (key === "through") return value === "shank" ? t("loads.options.shank") : t("loads.options.thread");
  if (key !== "material") return value;
  const own = loads.materials.find(({ id }) => id === value);
  const known = MATERIALS.find(({ id }) => id === value)?.id;
  const source = own ? (own.source ?? t("loads.materials.own")) : known ? sourceOf(known) : "";
  return t("loads.materials.from", { material: value, source });
}

const TABLE = ["S235", "S275", "S355", "E235+N", "E355+N", "4130 N"] as const;

function sourceOf(id: string): string {
  const known = TABLE.find((each) => each === id);
  return known ? t(`loads.materials.${known}`) : "";
}

interface UnknownProps {
  readonly row: UnknownRow;
  readonly scene: Scene;
  readonly isOpen: boolean;
  onPress(): void;
}

function UnknownView({ row: { part, missing }, scene, isOpen, onPress }: UnknownProps) {
  return (
    <>
      <button type="button" className="screen-row unknown" aria-expanded={isOpen} onClick={onPress}>
        <span className="screen-words">
          {partText(part, scene)}
          {!isOpen && <small>{missing.map(missingText).join("; ")}</small>}
        </span>
      </button>
      {isOpen && (
        <ul className="missing-list">
          {missing.map((each) => (
            <li key={missingText(each)}>
              <span>{missingText(each)}</span>
              <button type="button" className="button" onClick={() => openForm(formFor(each, part))}>
                {t("loads.screening.tell")}
              </button>
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

function formFor(missing: Missing, part: string): LoadsForm {
  switch (missing.what) {
    case "tube":
    case "leg":
      return { what: "tubes", of: part };
    case "bolt":
    case "bolt class":
      return { what: "bolts", of: part };
    case "plate":
      return { what: "plates", of: part };
    case "weld":
      return { what: "welds", of: part };
    case "rating":
      return { what: "ratings", of: part };
    case "material":
    case "weld factor":
      return { what: "materials", of: missing.material };
  }
}
