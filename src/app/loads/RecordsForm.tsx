import { useState } from "react";
import { usualCases } from "../../loads/cases.ts";
import type { SceneDocument } from "../../scene/document.ts";
import type { LoadCase } from "../../scene/loadRecords.ts";
import type { LoadsDocument } from "../../scene/loadsEdits.ts";
import { usePointsLook } from "../points/pointsStore.ts";
import { Choices } from "../shell/Choices.tsx";
import { EditForm } from "../shell/EditForm.tsx";
import { listText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { editLoads } from "./editLoads.ts";
import { closeForm, type ListName } from "./formsStore.ts";
import { caseText } from "./partNames.ts";
import { RecordField } from "./RecordField.tsx";
import { fieldsOf, type LoadRecord, lacksOf, newRecord, valueAt, withCut, withValue } from "./recordFields.ts";

interface RecordsFormProps {
  readonly list: ListName;
  /** What it is asked for: begins a record where there is none. */
  readonly of?: string;
  readonly document: SceneDocument;
}

interface Row {
  readonly key: number;
  readonly record: LoadRecord;
}

/** One list of the load records, kept as one step or left as it was. */
export function RecordsForm({ list, of, document }: RecordsFormProps) {
  const [rows, setRows] = useState<readonly Row[]>(() => begin(list, of, document));
  /** Cases alone: nothing of the scene's own stands for the usual ones. */
  const [isUsual, setUsual] = useState(list === "cases" && !document.loads?.cases);
  const isNonsense = usePointsLook((look) => look.troubled.size > 0);
  // as they stood in the document, what is new behind them
  const records = [...rows].sort((a, b) => a.key - b.key).map(({ record }) => record);
  const lacks = isUsual ? [] : lacksIn(list, records, document);
  const nextKey = 1 + Math.max(-1, ...rows.map(({ key }) => key));
  const change = (key: number, record: LoadRecord) =>
    setRows(rows.map((row) => (row.key === key ? { key, record } : row)));
  const go = () => {
    const isNone = list === "cases" ? isUsual : records.length === 0;
    return editLoads(t(`loads.steps.${list}`), { [list]: isNone ? undefined : records } as Partial<LoadsDocument>);
  };
  return (
    <EditForm
      title={t(`loads.lists.${list}`)}
      lead={t(`loads.leads.${list}`)}
      go={t("loads.keep")}
      isBarred={isNonsense || lacks.length > 0}
      wait={lacks.length > 0 ? t("loads.stillToTell", { fields: listText(lacks, "unit") }) : null}
      onGo={go}
      onDone={closeForm}
    >
      {isUsual && (
        <ul className="usual-cases">
          {usualOf(document).map(({ id }) => (
            <li key={id}>{caseText(id, true)}</li>
          ))}
        </ul>
      )}
      {!isUsual &&
        rows.map(({ key, record }, i) => (
          <fieldset
            key={key}
            className="car-row"
            aria-label={t("loads.entry", { list: t(`loads.lists.${list}`), number: i + 1 })}
          >
            {list === "welds" && <WeldSize record={record} onChange={(next) => change(key, next)} />}
            {fieldsOf(list, record, document).map((field) => (
              <RecordField
                key={field.key}
                field={field}
                value={valueAt(record, field.key)}
                document={document}
                onChange={(value) => {
                  const next = withValue(record, field.key, value);
                  change(key, field.kind === "member" ? withCut(next, document) : next);
                }}
              />
            ))}
            <button
              type="button"
              className="button plain"
              onClick={() => setRows(rows.filter((row) => row.key !== key))}
            >
              {t("loads.takeOut")}
            </button>
          </fieldset>
        ))}
      <div className="tool-buttons loads-more">
        {!isUsual && (
          <button
            type="button"
            className="button"
            onClick={() => setRows([...rows, { key: nextKey, record: newRecord(list, records, document) }])}
          >
            {t(`loads.add.${list}`)}
          </button>
        )}
        {list === "cases" && (
          <button
            type="button"
            className="button"
            onClick={() => {
              if (isUsual) setRows(usualOf(document).map((one, key) => ({ key, record: recordOf(one) })));
              setUsual(!isUsual);
            }}
          >
            {t(`loads.casesAre.${isUsual ? "usual" : "own"}`)}
          </button>
        )}
      </div>
    </EditForm>
  );
}

function begin(list: ListName, of: string | undefined, document: SceneDocument): readonly Row[] {
  const told = (document.loads?.[list] ?? []) as unknown as readonly LoadRecord[];
  const isTold = told.some(({ id, joint, member }) => [id, joint, member].includes(of));
  const records = of === undefined || isTold ? told : [...told, newRecord(list, told, document, of)];
  const rows = records.map((record, key) => ({ key, record }));
  // what was asked for is shown first
  const asked = ({ record: { id, joint, member } }: Row) => of !== undefined && [id, joint, member].includes(of);
  return [...rows.filter(asked), ...rows.filter((row) => !asked(row))];
}

/** Names of the fields that are still to be told, each once. */
function lacksIn(list: ListName, records: readonly LoadRecord[], document: SceneDocument): readonly string[] {
  const lacks = records.flatMap((record) => lacksOf(list, record, document));
  return [...new Set(lacks.map(({ label }) => t(`loads.fields.${label}`)))];
}

function usualOf(document: SceneDocument): readonly LoadCase[] {
  return usualCases(document.driveshaft !== undefined);
}

/** A usual case as a file has it, under its name in the language that is shown. */
function recordOf({ id, timesStatic: [forward, out, up], torque }: LoadCase): LoadRecord {
  return {
    id: caseText(id, true),
    timesStatic: { ...(forward ? { forward } : {}), ...(out ? { out } : {}), ...(up ? { up } : {}) },
    ...(torque ? { torque } : {}),
  };
}

const SIZES = (["throat", "leg"] as const).map((value) => ({ value, name: t(`loads.options.${value}`) }));

/** A fillet is told by its throat or by its leg. */
function WeldSize({ record, onChange }: { record: LoadRecord; onChange(record: LoadRecord): void }) {
  const isLeg = record.leg_mm !== undefined;
  const size = Number(isLeg ? record.leg_mm : record.throat_mm);
  const { leg_mm: _leg, throat_mm: _throat, ...rest } = record;
  const round = (value: number) => Math.round(value * 10) / 10;
  return (
    <div className="loads-choice-field">
      <span>{t("loads.fields.size")}</span>
      <Choices
        label={t("loads.fields.size")}
        options={SIZES}
        value={isLeg ? "leg" : "throat"}
        onChoose={(chosen) => {
          if ((chosen === "leg") === isLeg) return;
          // of equal legs
          if (chosen === "leg") onChange({ ...rest, leg_mm: round(size * Math.SQRT2) });
          else onChange({ ...rest, throat_mm: round(size / Math.SQRT2) });
        }}
      />
    </div>
  );
}
