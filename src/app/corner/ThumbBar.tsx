import type { Layout } from "../shell/useLayout.ts";
import { app, useHistory } from "../store/useApp.ts";
import { t } from "../text/text.ts";
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
        aria-label={undo ? t("shell.history.undoOf", { step: undo }) : t("shell.history.undo")}
        onClick={() => app.getState().undo()}
      >
        {t("shell.history.undo")}
      </button>
      {roomy && (
        <button
          type="button"
          className="button"
          disabled={redo === null}
          aria-label={redo ? t("shell.history.redoOf", { step: redo }) : t("shell.history.redo")}
          onClick={() => app.getState().redo()}
        >
          {t("shell.history.redo")}
        </button>
      )}
      <button
        type="button"
        className="button"
        aria-label={t("corner.thumbs.clashBefore")}
        onClick={() => stepChosen(-1)}
      >
        {t(`corner.thumbs.${roomy ? "clashBefore" : "before"}`)}
      </button>
      <button type="button" className="button" aria-label={t("corner.thumbs.clashNext")} onClick={() => stepChosen(1)}>
        {t(`corner.thumbs.${roomy ? "clashNext" : "next"}`)}
      </button>
      <MakeCardButton />
    </div>
  );
}
