import { Dialog } from "@base-ui/react/dialog";
import { type ReactNode, useState } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import { copyPart } from "../../scene/parts/copy.ts";
import { freeId, type Part } from "../../scene/parts/parts.ts";
import { consequencesOf, removePart } from "../../scene/parts/remove.ts";
import { renamePart, withRole } from "../../scene/parts/rename.ts";
import { EditForm } from "../shell/EditForm.tsx";
import { app } from "../store/useApp.ts";
import { withinText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { nameOf } from "../words/names.ts";
import { editParts } from "./partEdits.ts";
import { ask, usePartsLook } from "./partsStore.ts";
import { RoleField } from "./RoleField.tsx";
import { TextLine } from "./TextLine.tsx";

interface PartDialogsProps {
  readonly part: Part;
  readonly document: SceneDocument;
  readonly name: string;
}

/** Questions that come before a part is renamed, copied or deleted. */
export function PartDialogs(props: PartDialogsProps) {
  const asks = usePartsLook((look) => look.asks);
  return (
    <Dialog.Root open={asks !== null} onOpenChange={(open) => !open && ask(null)}>
      <Dialog.Portal>
        <Dialog.Backdrop className="veil" />
        <Dialog.Popup className="dialog part-dialog">
          {asks === "rename" && <Rename {...props} />}
          {asks === "copy" && <Copy {...props} />}
          {asks === "delete" && <Delete {...props} />}
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

function Rename({ part, document: shown, name }: PartDialogsProps) {
  const [id, setId] = useState(part.id);
  const [role, setRole] = useState(part.role ?? "");
  const isBody = part.kind === "body";
  const go = () => {
    const to = id.trim();
    const error = editParts(t("parts.edit.rename", { name: withinText(name), to }), (document) => {
      const renamed = renamePart(document, part.id, to);
      const wanted = role.trim() || null;
      return isBody && wanted !== part.role ? withRole(renamed, to, wanted) : renamed;
    });
    if (!error) app.getState().hold(to);
    return error;
  };
  return (
    <EditForm
      title={t("parts.rename.title", { name: withinText(name) })}
      lead={t("parts.rename.lead")}
      go={t("parts.rename.go")}
      onGo={go}
      onDone={() => ask(null)}
    >
      <TextLine label={t("parts.name")} value={id} onChange={setId} />
      {isBody && <RoleField document={shown} value={role} onChange={setRole} />}
    </EditForm>
  );
}

function Copy({ part, document, name }: PartDialogsProps) {
  const [id, setId] = useState(() => freeId(document, part.id));
  const [points, setPoints] = useState<"own" | "shared">("own");
  const go = () => {
    const error = editParts(t("parts.edit.copy", { name: withinText(name) }), (now) =>
      copyPart(now, part.id, { id: id.trim(), points, shift_mm: [COPY_SHIFT_MM, 0, 0] }),
    );
    if (!error) app.getState().hold(id.trim());
    return error;
  };
  return (
    <EditForm
      title={t("parts.copy.title", { name: withinText(name) })}
      lead={t("parts.copy.lead", { shift_mm: COPY_SHIFT_MM })}
      go={t("parts.copy.go")}
      onGo={go}
      onDone={() => ask(null)}
    >
      <TextLine label={t("parts.name")} value={id} onChange={setId} />
      <fieldset className="copy-points">
        <legend>{t("parts.copy.points")}</legend>
        {(["own", "shared"] as const).map((value) => (
          <label key={value}>
            <input type="radio" name="points" checked={points === value} onChange={() => setPoints(value)} />
            {t(`parts.copy.${value}`)}
          </label>
        ))}
      </fieldset>
    </EditForm>
  );
}

const COPY_SHIFT_MM = 50;

function Delete({ part, document, name }: PartDialogsProps) {
  const { riders, rules, accepted, points } = consequencesOf(document, part.id);
  const [withPoints, setWithPoints] = useState(true);
  const [withRiders, setWithRiders] = useState(true);
  const lines = [
    rules > 0 ? t("parts.delete.rules", { count: rules }) : "",
    accepted > 0 ? t("parts.delete.accepted", { count: accepted }) : "",
    t("parts.delete.lead"),
  ];
  const go = () => {
    const error = editParts(t("parts.edit.delete", { name: withinText(name) }), (now) =>
      removePart(now, part.id, {
        riders: withRiders,
        points: withPoints && (withRiders || riders.length === 0) ? points : [],
      }),
    );
    if (!error) app.getState().hold(null);
    return error;
  };
  return (
    <EditForm
      title={t("parts.delete.title", { name: withinText(name) })}
      lead={lines.filter(Boolean).join(" ")}
      go={t("parts.delete.go")}
      onGo={go}
      onDone={() => ask(null)}
    >
      {riders.length > 0 && (
        <CheckLine checked={withRiders} onChange={setWithRiders}>
          {t("parts.delete.riders", { names: riders.map((id) => nameOf(id, document)).join(", ") })}
        </CheckLine>
      )}
      {points.length > 0 && (
        <CheckLine checked={withPoints} onChange={setWithPoints}>
          {t("parts.delete.freePoints", { names: points.join(", ") })}
        </CheckLine>
      )}
    </EditForm>
  );
}

function CheckLine(props: { checked: boolean; children: ReactNode; onChange(checked: boolean): void }) {
  return (
    <label className="check-line">
      <input type="checkbox" checked={props.checked} onChange={(event) => props.onChange(event.target.checked)} />
      <span>{props.children}</span>
    </label>
  );
}
