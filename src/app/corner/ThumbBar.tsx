import type { Layout } from "../shell/useLayout.ts";
import { app, useHistory } from "../store/useApp.ts";
import { MakeCardButton } from "./MakeCardButton.tsx";
import { stepChosen } from "./stepChosen.ts";

/** What the thumbs reach on a tablet or a phone. */
export function ThumbBar({ layout }: { layout: Layout }) {
  const { undo, redo } = useHistory();
  const roomy = layout !== "phone";
  return (
    <div className="thumb-bar">
      <button
        type="button"
        className="button"
        disabled={undo === null}
        aria-label={undo ? `Undo: ${undo}` : "Undo"}
        onClick={() => app.getState().undo()}
      >
        Undo
      </button>
      {roomy && (
        <button
          type="button"
          className="button"
          disabled={redo === null}
          aria-label={redo ? `Redo: ${redo}` : "Redo"}
          onClick={() => app.getState().redo()}
        >
          Redo
        </button>
      )}
      <button type="button" className="button" aria-label="Clash before" onClick={() => stepChosen(-1)}>
        {roomy ? "Clash before" : "Before"}
      </button>
      <button type="button" className="button" aria-label="Clash next" onClick={() => stepChosen(1)}>
        {roomy ? "Clash next" : "Next"}
      </button>
      <MakeCardButton />
    </div>
  );
}
