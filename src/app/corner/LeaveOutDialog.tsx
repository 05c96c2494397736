import { Dialog } from "@base-ui/react/dialog";
import { useState } from "react";
import type { PairVerdict } from "../../check/result.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { nameOf, nameWithin } from "../words/names.ts";
import { namedFirst } from "../words/sentences.ts";

interface LeaveOutProps {
  readonly pair: PairVerdict;
  readonly open: boolean;
  onClose(): void;
}

/** Asks why a pair may touch; the reason goes into the scene and stands beside the pair from then on. */
export function LeaveOutDialog({ pair, open, onClose }: LeaveOutProps) {
  const scene = useApp((state) => state.scene);
  const [why, setWhy] = useState("");
  const [first, second] = namedFirst(pair, scene);
  const reason = why.trim();
  return (
    <Dialog.Root open={open} onOpenChange={(wanted) => !wanted && onClose()}>
      <Dialog.Portal>
        <Dialog.Backdrop className="veil" />
        <Dialog.Popup className="dialog">
          <Dialog.Title>{t("corner.leaveOut.title")}</Dialog.Title>
          <Dialog.Description className="lead">
            {t("corner.leaveOut.lead", { a: nameOf(first, scene), b: nameWithin(second, scene) })}
          </Dialog.Description>
          <form
            onSubmit={(event) => {
              event.preventDefault();
              if (!reason) return;
              app.getState().acceptPair(pair.a, pair.b, reason);
              onClose();
            }}
          >
            <label className="field-label">
              {t("corner.leaveOut.why")}
              <input
                className="field"
                value={why}
                maxLength={500}
                placeholder={t("corner.leaveOut.example")}
                onChange={(event) => setWhy(event.target.value)}
              />
            </label>
            <div className="dialog-buttons">
              <Dialog.Close className="button">{t("corner.leaveOut.keep")}</Dialog.Close>
              <button type="submit" className="button go" disabled={!reason}>
                {t("corner.leaveOut.leave")}
              </button>
            </div>
          </form>
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}
