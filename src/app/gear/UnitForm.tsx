import { useState } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import { withUnit } from "../../scene/parts/add.ts";
import { Tick } from "../loads/RecordField.tsx";
import { editParts } from "../parts/partEdits.ts";
import { type SheetField, type SheetFields, type SheetValues, UNIT_FIELDS } from "../parts/partFields.ts";
import { SheetRows } from "../parts/SheetRows.tsx";
import { usePointsLook } from "../points/pointsStore.ts";
import { Choices } from "../shell/Choices.tsx";
import { EditForm } from "../shell/EditForm.tsx";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { closeGearForm } from "./gearStore.ts";

type Unit = "damper" | "driveshaft";

/** What the running gear asks of a unit: the fields that it may do without. None begins with a guess. */
function optionalOf(unit: Unit): SheetFields {
  const asked = Object.entries(UNIT_FIELDS[unit]).filter(([, field]) => field.optional);
  return Object.fromEntries(asked.map(([key, field]) => [key, { ...field, usual: 0 } as SheetField]));
}

/** Of these the right driveshaft may have its own. */
const OF_EACH_SIDE = ["bar_mm", "shortest_mm", "longest_mm", "innerAngleLimit_deg"];
const JOINTS = ["innerJoint", "outerJoint"] as const;
const TURNS = (["true", "cross"] as const).map((value) => ({ value, name: t(`gear.form.turns.${value}`) }));

/** Lengths, rates and limits of the damper with its spring, or of the driveshaft: kept as one step or left as they were. */
export function UnitForm({ unit, document }: { unit: Unit; document: SceneDocument }) {
  const shownUnit = useApp((state) => state.unit);
  const [values, setValues] = useState<SheetValues>(() => ({ ...document[unit] }));
  const isNonsense = usePointsLook((look) => look.troubled.size > 0);
  const isWhole = [values, values.right ?? {}].every((each) => !Object.values(each).includes(0));
  const fields = optionalOf(unit);
  const right = values.right as SheetValues | undefined;
  const ofRight = Object.fromEntries(Object.entries(fields).filter(([key]) => OF_EACH_SIDE.includes(key)));
  const setRight = (next: SheetValues) => {
    const { right: _, ...rest } = values;
    setValues(Object.keys(next).length === 0 ? rest : { ...rest, right: next });
  };
  const go = () => editParts(t(`gear.form.${unit}.step`), (now) => withUnit(now, unit, values as never));
  return (
    <EditForm
      title={t(`gear.form.${unit}.title`)}
      lead={t(`gear.form.${unit}.lead`)}
      go={t("gear.form.keep")}
      isBarred={isNonsense || !isWhole}
      wait={isWhole ? null : t("gear.form.wait")}
      onGo={go}
      onDone={closeGearForm}
    >
      <SheetRows
        fields={fields}
        values={values}
        document={document}
        unit={shownUnit}
        trouble={null}
        onChange={setValues}
      />
      {unit === "driveshaft" && (
        <>
          {JOINTS.map((joint) => (
            <div key={joint} className="loads-choice-field">
              <span>{t(`gear.form.driveshaft.${joint}`)}</span>
              <Choices
                label={t(`gear.form.driveshaft.${joint}`)}
                options={TURNS}
                value={values[joint] === "universal" ? "cross" : "true"}
                onChoose={(chosen) => {
                  const { [joint]: _, ...rest } = values;
                  setValues(chosen === "cross" ? { ...rest, [joint]: "universal" } : rest);
                }}
              />
            </div>
          ))}
          {document.sides === "both" && (
            <RightSide fields={ofRight} values={right ?? {}} document={document} onChange={setRight} />
          )}
        </>
      )}
    </EditForm>
  );
}

interface RightSideProps {
  readonly fields: SheetFields;
  readonly values: SheetValues;
  readonly document: SceneDocument;
  onChange(values: SheetValues): void;
}

/** What the right driveshaft has otherwise than the left one. */
function RightSide({ fields, values, document, onChange }: RightSideProps) {
  const unit = useApp((state) => state.unit);
  const [isOpen, setOpen] = useState(Object.keys(fields).some((key) => key in values));
  const without = Object.fromEntries(Object.entries(values).filter(([key]) => !(key in fields)));
  return (
    <>
      <Tick
        label={t("gear.form.driveshaft.right")}
        isOn={isOpen}
        onChange={(isOn) => {
          setOpen(isOn);
          if (!isOn) onChange(without);
        }}
      />
      {isOpen && (
        <fieldset className="car-row" aria-label={t("gear.form.driveshaft.right")}>
          <SheetRows
            fields={fields}
            values={values}
            document={document}
            unit={unit}
            trouble={null}
            onChange={onChange}
          />
        </fieldset>
      )}
    </>
  );
}
