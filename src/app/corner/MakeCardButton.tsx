import { canMakeCard } from "../store/canMakeCard.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";

export function MakeCardButton() {
  const ready = useApp(canMakeCard);
  return (
    <button type="button" className="make-card" disabled={!ready} onClick={() => app.getState().setCardOpen(true)}>
      {t("corner.foot.makeCard")} <kbd className="key">S</kbd>
    </button>
  );
}
