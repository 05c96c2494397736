import { useState } from "react";
import type { Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { type JointRecord, withJoint, withoutJoint } from "../../scene/gearEdits.ts";
import { JOINT_KINDS } from "../../scene/jointsDocument.ts";
import { partText } from "../loads/partNames.ts";
import { Tick } from "../loads/RecordField.tsx";
import { DirectionField } from "../parts/PlaceFields.tsx";
import { editParts } from "../parts/partEdits.ts";
import { PlainField } from "../parts/SizeField.tsx";
import { Choices } from "../shell/Choices.tsx";
import { EditForm } from "../shell/EditForm.tsx";
import { withinText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { closeGearForm } from "./gearStore.ts";

const KINDS = JOINT_KINDS.map((value) => ({ value, name: t(`gear.kinds.${value}`) }));

/** How one joint is made and how far it may tilt and turn: kept as one step or left as it was. */
export function JointForm({ joint, document }: { joint: string; document: SceneDocument }) {
  const told = document.joints?.find((record) => record.joint === joint);
  const [kind, setKind] = useState<JointRecord["kind"] | null>(told?.kind ?? null);
  const [axis, setAxis] = useState<Vec3 | undefined>(told?.axis);
  const [tilt_deg, setTilt] = useState(told?.tilt_deg);
  const [twist_deg, setTwist] = useState(told?.twist_deg);
  const [crooked_deg, setCrooked] = useState(told?.crooked_deg ?? 0);
  const name = partText(joint, document);
  // nobody's guess stands for a limit
  const isWhole = kind !== null && tilt_deg !== 0 && (kind !== "bush" || twist_deg !== 0);
  const go = () =>
    editParts(t("gear.joint.step", { joint: withinText(name) }), (now) =>
      withJoint(now, {
        joint,
        kind: kind!,
        ...(axis ? { axis } : {}),
        ...(tilt_deg === undefined ? {} : { tilt_deg }),
        ...(kind === "bush" && twist_deg !== undefined ? { twist_deg } : {}),
        ...(crooked_deg > 0 ? { crooked_deg } : {}),
      }),
    );
  return (
    <EditForm
      title={name}
      lead={t("gear.joint.lead")}
      go={t("gear.form.keep")}
      isBarred={!isWhole}
      wait={isWhole ? null : t("gear.joint.wait")}
      extra={told && <Forget joint={joint} name={name} />}
      onGo={go}
      onDone={closeGearForm}
    >
      <div className="loads-choice-field">
        <span>{t("gear.joint.kind")}</span>
        <Choices label={t("gear.joint.kind")} options={KINDS} value={kind} onChoose={setKind} />
      </div>
      <Tick
        label={t("gear.joint.axisTold")}
        isOn={axis !== undefined}
        onChange={(isOn) => setAxis(isOn ? [1, 0, 0] : undefined)}
      />
      {axis && <DirectionField label={t("gear.joint.axis")} value={axis} onChange={setAxis} />}
      <Limit told={t("gear.joint.tiltTold")} label={t("gear.joint.tilt")} value_deg={tilt_deg} onChange={setTilt} />
      {kind === "bush" && (
        <Limit
          told={t("gear.joint.twistTold")}
          label={t("gear.joint.twist")}
          value_deg={twist_deg}
          onChange={setTwist}
        />
      )}
      <PlainField
        label={t("gear.joint.crooked")}
        value={crooked_deg}
        unit={t("parts.fields.degrees")}
        step={0.5}
        trouble={null}
        onChange={setCrooked}
      />
    </EditForm>
  );
}

interface LimitProps {
  readonly told: string;
  readonly label: string;
  readonly value_deg: number | undefined;
  onChange(value_deg: number | undefined): void;
}

function Limit({ told, label, value_deg, onChange }: LimitProps) {
  return (
    <>
      <Tick label={told} isOn={value_deg !== undefined} onChange={(isOn) => onChange(isOn ? 0 : undefined)} />
      {value_deg !== undefined && (
        <PlainField
          label={label}
          value={value_deg}
          unit={t("parts.fields.degrees")}
          step={1}
          trouble={null}
          onChange={onChange}
        />
      )}
    </>
  );
}

function Forget({ joint, name }: { joint: string; name: string }) {
  return (
    <button
      type="button"
      className="button"
      onClick={() => {
        editParts(t("gear.joint.stepForget", { joint: withinText(name) }), (now) => withoutJoint(now, joint));
        closeGearForm();
      }}
    >
      {t("gear.joint.forget")}
    </button>
  );
}
