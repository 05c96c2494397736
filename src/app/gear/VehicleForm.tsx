import { useState } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { withVehicle } from "../../scene/gearEdits.ts";
import { Tick } from "../loads/RecordField.tsx";
import { PlainField, SizeField } from "../parts/SizeField.tsx";
import { usePointsLook } from "../points/pointsStore.ts";
import { EditForm } from "../shell/EditForm.tsx";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { closeGearForm } from "./gearStore.ts";

/** Wheelbase, centre of gravity and brake share of the whole car: one step, which starts no check. */
export function VehicleForm({ document: { vehicle } }: { document: SceneDocument }) {
  const unit = useApp((state) => state.unit);
  const [wheelbase_mm, setWheelbase] = useState(vehicle?.wheelbase_mm ?? 0);
  const [cgHeight_mm, setHeight] = useState(vehicle?.cgHeight_mm ?? 0);
  const [share, setShare] = useState(vehicle?.rearBrakeShare);
  const isNonsense = usePointsLook((look) => look.troubled.size > 0);
  const isWhole = wheelbase_mm > 0 && cgHeight_mm > 0 && share !== 0;
  const go = (): InputError | null => {
    try {
      const record = { wheelbase_mm, cgHeight_mm, ...(share === undefined ? {} : { rearBrakeShare: share }) };
      app.getState().editAside(t("gear.vehicle.step"), (now) => withVehicle(now, record));
      return null;
    } catch (error) {
      if (error instanceof InputError) return error;
      throw error;
    }
  };
  return (
    <EditForm
      title={t("gear.vehicle.title")}
      lead={t("gear.vehicle.lead")}
      go={t("gear.form.keep")}
      isBarred={isNonsense || !isWhole}
      wait={isWhole ? null : t("gear.form.wait")}
      onGo={go}
      onDone={closeGearForm}
    >
      <SizeField
        label={t("gear.vehicle.wheelbase")}
        value_mm={wheelbase_mm}
        unit={unit}
        trouble={null}
        onChange={setWheelbase}
      />
      <SizeField
        label={t("gear.vehicle.height")}
        value_mm={cgHeight_mm}
        unit={unit}
        trouble={null}
        onChange={setHeight}
      />
      <Tick
        label={t("gear.vehicle.shareTold")}
        isOn={share !== undefined}
        onChange={(isOn) => setShare(isOn ? 0 : undefined)}
      />
      {share !== undefined && (
        <PlainField
          label={t("gear.vehicle.share")}
          value={Math.round(share * 1e6) / 1e4}
          unit="%"
          step={1}
          trouble={null}
          onChange={(percent) => setShare(percent / 100)}
        />
      )}
    </EditForm>
  );
}
