import { app, useHistory } from "../store/useApp.ts";
import { MakeCardButton } from "./MakeCardButton.tsx";
import { stepChosen } from "./stepChosen.ts";

/** What the thumbs reach on a tablet or a phone. */
export function ThumbBar() {
  const { undo } = useHistory();
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
      <button type="button" className="button" onClick={() => stepChosen(-1)}>
        Before
      </button>
      <button type="button" className="button" onClick={() => stepChosen(1)}>
        Next
      </button>
      <MakeCardButton />
    </div>
  );
}
