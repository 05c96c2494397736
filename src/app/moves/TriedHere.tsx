import { keepTriedMove } from "../shell/keepTriedMove.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";

/** What a study proposed is shown and checked, not kept yet. */
export function TriedHere() {
  const hasError = useApp((state) => state.error !== null);
  return (
    <div className="move-tried">
      <span>{t("moves.tried")}</span>
      <button type="button" className="button" onClick={() => app.getState().putBack()}>
        {t("moves.putBack")}
      </button>
      <button type="button" className="button go" disabled={hasError} onClick={() => keepTriedMove(app.getState())}>
        {t("moves.keep")}
      </button>
    </div>
  );
}
