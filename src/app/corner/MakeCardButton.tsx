import { canMakeCard } from "../store/canMakeCard.ts";
import { app, useApp } from "../store/useApp.ts";

export function MakeCardButton() {
  const ready = useApp(canMakeCard);
  return (
    <button type="button" className="make-card" disabled={!ready} onClick={() => app.getState().setCardOpen(true)}>
      Make job card <kbd className="key">S</kbd>
    </button>
  );
}
