import { showSteps } from "../projects/dialogs.ts";
import { app, useHistory } from "../store/useApp.ts";
import { t } from "../text/text.ts";

/** Undo and Redo, each saying which step it is about. */
export function UndoButtons() {
  const { undo, redo } = useHistory();
  return (
    <fieldset className="choices undo" aria-label={t("shell.history.label")}>
      <StepButton way="undo" step={undo} onPress={() => app.getState().undo()} />
      <StepButton way="redo" step={redo} onPress={() => app.getState().redo()} />
      <button type="button" disabled={undo === null && redo === null} onClick={showSteps}>
        {t("shell.history.steps")}
      </button>
    </fieldset>
  );
}

function StepButton({ way, step, onPress }: { way: "undo" | "redo"; step: string | null; onPress(): void }) {
  const word = t(`shell.history.${way}`);
  const full = step ? t(`shell.history.${way}Of`, { step }) : word;
  return (
    <button type="button" disabled={step === null} aria-label={full} title={full} onClick={onPress}>
      {word}
      {step && <small>{step}</small>}
    </button>
  );
}
