import { useState } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import { PlainField } from "../parts/SizeField.tsx";
import { Choices } from "../shell/Choices.tsx";
import { EditForm } from "../shell/EditForm.tsx";
import { t } from "../text/text.ts";
import { editLoads } from "./editLoads.ts";
import { closeForm } from "./formsStore.ts";
import { QuantityField } from "./QuantityField.tsx";
import { Tick } from "./RecordField.tsx";

const BEGIN_TARGET = 2;
const BRAKES = (["outboard", "inboard"] as const).map((value) => ({
  value,
  name: t(`loads.basics.brakeChoices.${value}`),
}));

/** What the wheels carry, where the brakes sit, and the builder's own wanted factor. */
export function BasicsForm({ document }: { document: SceneDocument }) {
  const loads = document.loads ?? {};
  const [isTold, setTold] = useState(true);
  const [left_kg, setLeft] = useState(loads.cornerMass_kg ?? 0);
  const [right_kg, setRight] = useState(loads.right?.cornerMass_kg);
  const [unsprung_kg, setUnsprung] = useState(loads.unsprung_kg);
  const [brakes, setBrakes] = useState(loads.brakes ?? "outboard");
  const [target, setTarget] = useState(loads.target);
  const isBoth = document.sides === "both";
  // nobody's guess stands for a mass
  const masses = [...(isTold ? [left_kg, right_kg] : []), unsprung_kg];
  const isWhole = masses.every((mass_kg) => mass_kg === undefined || mass_kg > 0);
  const go = () =>
    editLoads(t("loads.steps.basics"), {
      cornerMass_kg: isTold ? left_kg : undefined,
      right: isTold && isBoth && right_kg !== undefined ? { cornerMass_kg: right_kg } : undefined,
      unsprung_kg,
      brakes: brakes === "outboard" && loads.brakes === undefined ? undefined : brakes,
      target,
    });
  return (
    <EditForm
      title={t("loads.given.basics")}
      lead={t("loads.leads.basics")}
      go={t("loads.keep")}
      isBarred={!isWhole}
      wait={isWhole ? null : t("loads.basics.wait")}
      onGo={go}
      onDone={closeForm}
    >
      <Tick label={t("loads.basics.massTold")} isOn={isTold} onChange={setTold} />
      {isTold && (
        <>
          <QuantityField
            label={t(`loads.basics.mass.${right_kg === undefined ? "both" : "left"}`)}
            quantity="mass"
            value={left_kg}
            step={5}
            onChange={setLeft}
          />
          {isBoth && (
            <Tick
              label={t("loads.basics.right")}
              isOn={right_kg !== undefined}
              onChange={(isOn) => setRight(isOn ? left_kg : undefined)}
            />
          )}
          {isBoth && right_kg !== undefined && (
            <QuantityField
              label={t("loads.basics.rightMass")}
              quantity="mass"
              value={right_kg}
              step={5}
              onChange={setRight}
            />
          )}
        </>
      )}
      <Tick
        label={t("loads.basics.unsprung")}
        isOn={unsprung_kg !== undefined}
        onChange={(isOn) => setUnsprung(isOn ? 0 : undefined)}
      />
      {unsprung_kg !== undefined && (
        <QuantityField
          label={t("loads.basics.unsprungMass")}
          quantity="mass"
          value={unsprung_kg}
          step={1}
          onChange={setUnsprung}
        />
      )}
      {document.driveshaft && (
        <div className="loads-choice-field">
          <span>{t("loads.basics.brakes")}</span>
          <Choices label={t("loads.basics.brakes")} options={BRAKES} value={brakes} onChoose={setBrakes} />
        </div>
      )}
      <Tick
        label={t("loads.basics.target")}
        isOn={target !== undefined}
        onChange={(isOn) => setTarget(isOn ? BEGIN_TARGET : undefined)}
      />
      {target !== undefined && (
        <PlainField
          label={t("loads.basics.target")}
          value={target}
          unit={t("loads.factorUnit")}
          step={0.5}
          trouble={null}
          onChange={setTarget}
        />
      )}
    </EditForm>
  );
}
