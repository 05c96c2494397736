import { app, useApp } from "../store/useApp.ts";

export function MakeCardButton() {
  const ready = useApp((state) => state.result !== null);
  return (
    <button type="button" className="make-card" disabled={!ready} onClick={() => app.getState().setCardOpen(true)}>
      Make job card <kbd className="key">S</kbd>
    </button>
  );
}
