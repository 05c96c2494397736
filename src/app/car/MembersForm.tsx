import { useState } from "react";
import type { Vec3 } from "../../maths/vec3.ts";
import type { MemberDocument, PointDocument, SceneDocument } from "../../scene/document.ts";
import { constraintsOf, MEMBER_ENDS, type MemberKind, usualMember, withMembers } from "../../scene/parts/car.ts";
import { PointPicker } from "../parts/PlaceFields.tsx";
import { TextLine } from "../parts/TextLine.tsx";
import type { en } from "../text/en/index.ts";
import { t } from "../text/text.ts";
import { CarForm } from "./CarForm.tsx";
import { LengthLine } from "./Fields.tsx";
import { heldText } from "./heldText.ts";

type MemberEnd = keyof (typeof en)["car"]["members"]["ends"];

interface Row {
  readonly key: number;
  readonly member: MemberDocument;
}

/** All members at once: added, swapped, taken out, hung on other points. */
export function MembersForm({ document }: { document: SceneDocument }) {
  const [rows, setRows] = useState<readonly Row[]>(() => document.members.map((member, key) => ({ key, member })));
  const [points, setPoints] = useState<Readonly<Record<string, Vec3>>>({});
  const members = rows.map(({ member }) => member);
  const total = constraintsOf(members);
  const grown = { ...document, points: { ...document.points, ...points } };
  const change = (key: number, member: MemberDocument) =>
    setRows(rows.map((row) => (row.key === key ? { key, member } : row)));
  const add = (kind: MemberKind) => {
    const made = usualMember(
      grown,
      kind,
      members.map(({ id }) => id),
    );
    setPoints({ ...points, ...made.points });
    setRows([...rows, { key: 1 + Math.max(-1, ...rows.map(({ key }) => key)), member: made.member }]);
  };
  return (
    <CarForm
      title={t("car.members.title")}
      lead={t("car.members.lead")}
      step={t("car.members.step")}
      wait={total === 5 ? null : heldText(total)}
      edit={(now) => withMembers(now, members, points)}
    >
      <p className="car-held" role="status">
        {heldText(total)}
      </p>
      {rows.map(({ key, member }) => (
        <MemberRow
          key={key}
          member={member}
          document={grown}
          onChange={(next) => change(key, next)}
          onTakeOut={() => setRows(rows.filter((row) => row.key !== key))}
        />
      ))}
      <fieldset className="piece-kinds" aria-label={t("car.members.add")}>
        <legend>{t("car.members.add")}</legend>
        {(Object.keys(MEMBER_ENDS) as MemberKind[]).map((kind) => (
          <button key={kind} type="button" className="button" onClick={() => add(kind)}>
            {t("car.members.addKind", { kind: t(`car.members.kinds.${kind}`) })}
          </button>
        ))}
      </fieldset>
    </CarForm>
  );
}

interface MemberRowProps {
  readonly member: MemberDocument;
  readonly document: SceneDocument;
  onChange(member: MemberDocument): void;
  onTakeOut(): void;
}

function MemberRow({ member, document, onChange, onTakeOut }: MemberRowProps) {
  const record = member as unknown as Readonly<Record<string, unknown>>;
  const set = (key: string, value: unknown) => {
    const { [key]: _, ...rest } = record;
    onChange((value === undefined ? rest : { ...rest, [key]: value }) as unknown as MemberDocument);
  };
  const sized = member.kind === "link" || member.kind === "wishbone";
  const isDonor = (member.stock ?? (sized ? "made" : "donor")) === "donor";
  return (
    <fieldset className="car-row" aria-label={member.id}>
      <legend>{t(`car.members.kinds.${member.kind}`)}</legend>
      <TextLine label={t("car.name")} value={member.id} onChange={(id) => set("id", id)} />
      {Object.keys(MEMBER_ENDS[member.kind]).map((end) => (
        <PointPicker
          key={end}
          label={t(`car.members.ends.${end as MemberEnd}`)}
          document={document}
          value={record[end] as PointDocument}
          onChange={(point) => set(end, point)}
        />
      ))}
      {sized && (
        <LengthLine
          label={t("car.members.diameter")}
          value_mm={member.diameter_mm ?? 30}
          onChange={(diameter_mm) => set("diameter_mm", diameter_mm)}
        />
      )}
      <label className="check-line">
        <input
          type="checkbox"
          checked={isDonor}
          onChange={(event) => set("stock", event.target.checked ? "donor" : "made")}
        />
        <span>{t("car.members.donor")}</span>
      </label>
      {member.kind === "link" && (
        <label className="check-line">
          <input
            type="checkbox"
            checked={member.bushAxis !== undefined}
            onChange={(event) => set("bushAxis", event.target.checked ? [1, 0, 0] : undefined)}
          />
          <span>{t("car.members.bush")}</span>
        </label>
      )}
      <button type="button" className="button plain" onClick={onTakeOut}>
        {t("car.takeOut")}
      </button>
    </fieldset>
  );
}
