import { Dialog } from "@base-ui/react/dialog";
import { type ReactNode, useState } from "react";
import type { InputError } from "../../scene/error.ts";
import { troubleText } from "../parts/partDraft.ts";
import { t } from "../text/text.ts";

interface EditFormProps {
  readonly title: string;
  readonly lead: ReactNode;
  /** What the button says that makes the edit. */
  readonly go: string;
  /** Whether the edit cannot be made as things stand. */
  readonly isBarred?: boolean;
  /** Why not, beside the buttons. */
  readonly wait?: string | null;
  /** Buttons between leaving and going. */
  readonly extra?: ReactNode;
  readonly children?: ReactNode;
  /** Why the edit was refused; null: it is made. */
  onGo(): InputError | null;
  onDone(): void;
}

/** What stands in a dialog that makes one edit of the scene: made as one step, refused with the reason, or left. */
export function EditForm(props: EditFormProps) {
  const { title, lead, go, isBarred = false, wait = null, extra, children, onGo, onDone } = props;
  const [refused, setRefused] = useState<InputError | null>(null);
  return (
    <form
      onChange={() => setRefused(null)}
      onSubmit={(event) => {
        event.preventDefault();
        if (isBarred) return;
        const error = onGo();
        setRefused(error);
        if (!error) onDone();
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
        {wait !== null && <p className="dialog-wait">{wait}</p>}
        <Dialog.Close className="button">{t("shell.leave")}</Dialog.Close>
        {extra}
        <button type="submit" className="button go" disabled={isBarred}>
          {go}
        </button>
      </div>
    </form>
  );
}
