import { useState } from "react";
import type { Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { withRecords } from "../../scene/parts/car.ts";
import { isVector } from "../../scene/pointResolver.ts";
import { DirectionField, PlaceField, PointPicker } from "../parts/PlaceFields.tsx";
import { PlainField } from "../parts/SizeField.tsx";
import { TextLine } from "../parts/TextLine.tsx";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { CarForm } from "./CarForm.tsx";
import { SignedLine } from "./Fields.tsx";

type Pose = NonNullable<NonNullable<SceneDocument["powertrain"]>["poses"]>[number];
interface Row {
  readonly key: number;
  readonly pose: Pose;
}

/** The motions of the powertrain on its mounts. */
export function RockForm({ document }: { document: SceneDocument }) {
  const [rows, setRows] = useState<readonly Row[]>(() =>
    (document.powertrain?.poses ?? []).map((pose, key) => ({ key, pose })),
  );
  const change = (key: number, pose: Pose) => setRows(rows.map((row) => (row.key === key ? { key, pose } : row)));
  const add = () => {
    const about = rows.at(-1)?.pose.about ?? ([240, 0, 480] as const);
    const taken = rows.map(({ pose }) => pose.id);
    const id =
      ["pulling", "overrun"].find((name) => !taken.includes(name)) ?? t("car.rock.id", { number: rows.length + 1 });
    const pose: Pose = { id, about, axis: [0, 1, 0], angle_deg: id === "overrun" ? 2 : -3 };
    setRows([...rows, { key: 1 + Math.max(-1, ...rows.map(({ key }) => key)), pose }]);
  };
  const edit = (now: SceneDocument): SceneDocument => {
    const { poses: _, ...rest } = now.powertrain ?? {};
    const powertrain = { ...rest, ...(rows.length === 0 ? {} : { poses: rows.map(({ pose }) => pose) }) };
    return withRecords(now, { powertrain: Object.keys(powertrain).length === 0 ? undefined : powertrain });
  };
  return (
    <CarForm title={t("car.rock.title")} lead={t("car.rock.lead")} step={t("car.rock.step")} edit={edit}>
      {rows.map(({ key, pose }) => (
        <PoseRow
          key={key}
          pose={pose}
          document={document}
          onChange={(next) => change(key, next)}
          onTakeOut={() => setRows(rows.filter((row) => row.key !== key))}
        />
      ))}
      <button type="button" className="button" onClick={add}>
        {t("car.rock.add")}
      </button>
    </CarForm>
  );
}

const SHIFTS = ["forward", "left", "up"] as const;

interface PoseRowProps {
  readonly pose: Pose;
  readonly document: SceneDocument;
  onChange(pose: Pose): void;
  onTakeOut(): void;
}

function PoseRow({ pose, document, onChange, onTakeOut }: PoseRowProps) {
  const unit = useApp((state) => state.unit);
  const shift = pose.shift_mm ?? ([0, 0, 0] as const);
  const { within_mm } = pose;
  const withShift = (next: Vec3): Pose => {
    const { shift_mm: _, ...rest } = pose;
    return next.every((mm) => mm === 0) ? rest : { ...rest, shift_mm: next };
  };
  const withWithin = (next: readonly [number, number] | null): Pose => {
    const { within_mm: _, ...rest } = pose;
    return next === null ? rest : { ...rest, within_mm: next };
  };
  return (
    <fieldset className="car-row" aria-label={pose.id}>
      <TextLine label={t("car.name")} value={pose.id} onChange={(id) => onChange({ ...pose, id })} />
      <PointPicker
        label={t("car.rock.about")}
        document={document}
        value={pose.about}
        onChange={(about) => onChange({ ...pose, about })}
      />
      {isVector(pose.about) && (
        <div className="place-parts">
          <PlaceField value={pose.about} unit={unit} onChange={(about) => onChange({ ...pose, about })} />
        </div>
      )}
      <DirectionField label={t("car.rock.axis")} value={pose.axis} onChange={(axis) => onChange({ ...pose, axis })} />
      <PlainField
        label={t("car.rock.angle")}
        value={pose.angle_deg}
        unit={t("car.rock.angleUnit")}
        step={0.5}
        trouble={null}
        onChange={(angle_deg) => onChange({ ...pose, angle_deg })}
      />
      {SHIFTS.map((way, i) => (
        <SignedLine
          key={way}
          label={t(`car.rock.shift.${way}`)}
          value_mm={shift[i]!}
          onChange={(mm) => onChange(withShift(shift.map((old, j) => (j === i ? mm : old)) as unknown as Vec3))}
        />
      ))}
      <label className="check-line">
        <input
          type="checkbox"
          checked={within_mm !== undefined}
          onChange={(event) =>
            onChange(withWithin(event.target.checked ? [-document.travel.droop_mm, document.travel.bump_mm] : null))
          }
        />
        <span>{t("car.rock.within")}</span>
      </label>
      {within_mm && (
        <>
          <SignedLine
            label={t("car.rock.from")}
            value_mm={within_mm[0]}
            onChange={(mm) => onChange(withWithin([mm, within_mm[1]]))}
          />
          <SignedLine
            label={t("car.rock.to")}
            value_mm={within_mm[1]}
            onChange={(mm) => onChange(withWithin([within_mm[0], mm]))}
          />
        </>
      )}
      <button type="button" className="button plain" onClick={onTakeOut}>
        {t("car.takeOut")}
      </button>
    </fieldset>
  );
}
