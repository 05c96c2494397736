import { Dialog } from "@base-ui/react/dialog";
import { useState } from "react";
import type { PairVerdict } from "../../check/result.ts";
import { app, useApp } from "../store/useApp.ts";
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
          <Dialog.Title>Leave this pair out</Dialog.Title>
          <Dialog.Description className="lead">
            {nameOf(first, scene)} and {nameWithin(second, scene)} will no longer count, on either side of the car. The
            scene keeps your reason, and Undo brings the pair back.
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
              Why may they touch?
              <input
                className="field"
                value={why}
                maxLength={500}
                placeholder="rubber flap, meant to touch"
                onChange={(event) => setWhy(event.target.value)}
              />
            </label>
            <div className="dialog-buttons">
              <Dialog.Close className="button">Keep counting it</Dialog.Close>
              <button type="submit" className="button go" disabled={!reason}>
                Leave it out
              </button>
            </div>
          </form>
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}
