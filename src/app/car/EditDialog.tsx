import { Dialog } from "@base-ui/react/dialog";
import { type ReactNode, useState } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import type { InputError } from "../../scene/error.ts";
import { troubleText } from "../parts/partDraft.ts";
import { editParts } from "../parts/partEdits.ts";
import { usePointsLook } from "../points/pointsStore.ts";
import { closeCar } from "./carStore.ts";
import { WORDS } from "./words.ts";

interface EditDialogProps {
  readonly title: string;
  readonly lead: string;
  readonly step: string;
  /** Why it cannot be kept yet; null: it can. */
  readonly wait?: string | null;
  readonly children: ReactNode;
  readonly extra?: ReactNode;
  edit(document: SceneDocument): SceneDocument;
  onKept?(): void;
}

/** One sheet of the car's settings: kept as one step, or left as it was. */
export function EditForm({ title, lead, step, wait = null, children, extra, edit, onKept }: EditDialogProps) {
  const [refused, setRefused] = useState<InputError | null>(null);
  const isNonsense = usePointsLook((look) => look.troubled.size > 0);
  return (
    <form
      onChange={() => setRefused(null)}
      onSubmit={(event) => {
        event.preventDefault();
        if (isNonsense || wait !== null) return;
        const error = editParts(step, edit);
        setRefused(error);
        if (error) return;
        closeCar();
        onKept?.();
      }}
    >
      <Dialog.Title>{title}</Dialog.Title>
      <Dialog.Description className="lead">{lead}</Dialog.Description>
      {children}
      {refused && (
        <p className="point-error" role="alert">
          {troubleText(refused)}
        </p>
      )}
      <div className="dialog-buttons">
        {wait !== null && <p className="car-wait">{wait}</p>}
        <Dialog.Close className="button">{WORDS.leave}</Dialog.Close>
        {extra}
        <button type="submit" className="button go" disabled={isNonsense || wait !== null}>
          {WORDS.keep}
        </button>
      </div>
    </form>
  );
}
