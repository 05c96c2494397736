import { showSteps } from "../projects/dialogs.ts";
import { app, useHistory } from "../store/useApp.ts";

/** Undo and Redo, each saying which step it is about. */
export function UndoButtons() {
  const { undo, redo } = useHistory();
  return (
    <fieldset className="choices undo" aria-label="History">
      <StepButton word="Undo" step={undo} onPress={() => app.getState().undo()} />
      <StepButton word="Redo" step={redo} onPress={() => app.getState().redo()} />
      <button type="button" disabled={undo === null && redo === null} onClick={showSteps}>
        Steps
      </button>
    </fieldset>
  );
}

function StepButton({ word, step, onPress }: { word: string; step: string | null; onPress(): void }) {
  const full = step ? `${word}: ${step}` : word;
  return (
    <button type="button" disabled={step === null} aria-label={full} title={full} onClick={onPress}>
      {word}
      {step && <small>{step}</small>}
    </button>
  );
}
