import { Dialog } from "@base-ui/react/dialog";
import { useEffect, useRef, useState } from "react";
import { useStore } from "zustand";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { closeDialog, useProjectDialogs } from "./dialogs.ts";
import "./projects.css";

/** How many steps the list grows by; thousands at once would make it slow to open. */
const PAGE = 200;

/** The steps of the project by name: choosing one goes back, or forth, to how things stood after it. */
export function StepsDialog() {
  const shown = useProjectDialogs((state) => state.shown === "steps");
  const current = useRef<HTMLButtonElement>(null);
  return (
    <Dialog.Root open={shown} onOpenChange={(open) => !open && closeDialog()}>
      <Dialog.Portal>
        <Dialog.Backdrop className="veil" />
        <Dialog.Popup className="dialog steps" initialFocus={current}>
          <Dialog.Title>{t("projects.steps.title")}</Dialog.Title>
          <Dialog.Description className="lead">{t("projects.steps.lead")}</Dialog.Description>
          <StepList current={current} />
          <div className="dialog-buttons">
            <Dialog.Close className="button">{t("projects.close")}</Dialog.Close>
          </div>
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

function StepList({ current }: { current: React.RefObject<HTMLButtonElement | null> }) {
  const stepName = useApp((state) => state.stepName);
  const past = useStore(app.temporal, (history) => history.pastStates);
  const future = useStore(app.temporal, (history) => history.futureStates);
  const [older, setOlder] = useState(PAGE);
  const [newer, setNewer] = useState(PAGE);
  useEffect(() => {
    current.current?.scrollIntoView({ block: "center" });
  }, [current]);
  const names = [...past.map((step) => step.stepName), stepName, ...[...future].reverse().map((step) => step.stepName)];
  const at = past.length;
  const first = Math.max(0, at - older);
  const last = Math.min(names.length, at + 1 + newer);
  return (
    <>
      {last < names.length && (
        <More onMore={() => setNewer(newer + PAGE)}>{t("projects.steps.newer", { count: names.length - last })}</More>
      )}
      <ol className="step-list" reversed>
        {names
          .map((name, index) => ({ name, index }))
          .slice(first, last)
          .reverse()
          .map(({ name, index }) => (
            <li key={index}>
              <button
                ref={index === at ? current : undefined}
                type="button"
                aria-current={index === at ? "step" : undefined}
                data-undone={index > at}
                onClick={() => goTo(index)}
              >
                <span className="tabular quiet">{index}</span>
                <span>{(index > 0 && name) || t("projects.steps.opened")}</span>
                {index === at && <span className="project-mark">{t("projects.steps.shown")}</span>}
                {index > at && <span className="quiet">{t("projects.steps.undone")}</span>}
              </button>
            </li>
          ))}
      </ol>
      {first > 0 && <More onMore={() => setOlder(older + PAGE)}>{t("projects.steps.older", { count: first })}</More>}
    </>
  );
}

function More({ onMore, children }: { onMore(): void; children: React.ReactNode }) {
  return (
    <button type="button" className="button step-more" onClick={onMore}>
      {children}
    </button>
  );
}

function goTo(index: number): void {
  const by = index - app.temporal.getState().pastStates.length;
  if (by < 0) app.getState().undo(-by);
  if (by > 0) app.getState().redo(by);
}
