import { Dialog } from "@base-ui/react/dialog";
import { type ReactNode, useId, useState } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import { copyPart } from "../../scene/parts/copy.ts";
import { freeId, type Part } from "../../scene/parts/parts.ts";
import { consequencesOf, removePart } from "../../scene/parts/remove.ts";
import { renamePart, withRole } from "../../scene/parts/rename.ts";
import { EditForm } from "../shell/EditForm.tsx";
import { app } from "../store/useApp.ts";
import { nameOf } from "../words/names.ts";
import { editParts } from "./partEdits.ts";
import { ask, usePartsLook } from "./partsStore.ts";

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

function Rename({ part, name }: PartDialogsProps) {
  const [id, setId] = useState(part.id);
  const [role, setRole] = useState(part.role ?? "");
  const isBody = part.kind === "body";
  const go = () => {
    const to = id.trim();
    const error = editParts(`rename ${name.toLowerCase()} ${to}`, (document) => {
      const renamed = renamePart(document, part.id, to);
      const wanted = role.trim() || null;
      return isBody && wanted !== part.role ? withRole(renamed, to, wanted) : renamed;
    });
    if (!error) app.getState().hold(to);
    return error;
  };
  return (
    <EditForm
      title={`Rename ${name.toLowerCase()}`}
      lead="Clearance rules, left-out pairs and what rides on it go along. Its points keep their names."
      go="Rename"
      onGo={go}
      onDone={() => ask(null)}
    >
      <TextLine label="Name" value={id} onChange={setId} />
      {isBody && (
        <TextLine label="Role, which clearance rules may name (exhaust, frame)" value={role} onChange={setRole} />
      )}
    </EditForm>
  );
}

function Copy({ part, document, name }: PartDialogsProps) {
  const [id, setId] = useState(() => freeId(document, part.id));
  const [points, setPoints] = useState<"own" | "shared">("own");
  const go = () => {
    const error = editParts(`copy ${name.toLowerCase()}`, (now) =>
      copyPart(now, part.id, { id: id.trim(), points, shift_mm: [COPY_SHIFT_MM, 0, 0] }),
    );
    if (!error) app.getState().hold(id.trim());
    return error;
  };
  return (
    <EditForm
      title={`Copy ${name.toLowerCase()}`}
      lead={`The copy stands ${COPY_SHIFT_MM} mm forward of it; move it from there.`}
      go="Copy"
      onGo={go}
      onDone={() => ask(null)}
    >
      <TextLine label="Name" value={id} onChange={setId} />
      <fieldset className="copy-points">
        <legend>What does the copy hang on?</legend>
        {(
          [
            ["own", "Points of its own, which can be moved by themselves"],
            ["shared", "The same points: it follows them, as the first one does"],
          ] as const
        ).map(([value, words]) => (
          <label key={value}>
            <input type="radio" name="points" checked={points === value} onChange={() => setPoints(value)} />
            {words}
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
    rules > 0
      ? `${rules} clearance ${rules === 1 ? "rule names" : "rules name"} it and ${rules === 1 ? "goes" : "go"} too.`
      : "",
    accepted > 0 ? `${accepted} left-out ${accepted === 1 ? "pair goes" : "pairs go"} too.` : "",
  ].filter(Boolean);
  const go = () => {
    const error = editParts(`delete ${name.toLowerCase()}`, (now) =>
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
      title={`Delete ${name.toLowerCase()}?`}
      lead={[...lines, "Undo brings everything back."].join(" ")}
      go="Delete"
      onGo={go}
      onDone={() => ask(null)}
    >
      {riders.length > 0 && (
        <CheckLine checked={withRiders} onChange={setWithRiders}>
          Also what rides on it: {riders.map((id) => nameOf(id, document)).join(", ")}
        </CheckLine>
      )}
      {points.length > 0 && (
        <CheckLine checked={withPoints} onChange={setWithPoints}>
          Also the hard points that nothing else uses: {points.join(", ")}
        </CheckLine>
      )}
    </EditForm>
  );
}

export function TextLine({ label, value, onChange }: { label: string; value: string; onChange(value: string): void }) {
  const id = useId();
  return (
    <label className="field-label" htmlFor={id}>
      {label}
      <input
        id={id}
        className="field"
        value={value}
        maxLength={80}
        autoComplete="off"
        onChange={(event) => onChange(event.target.value)}
      />
    </label>
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
