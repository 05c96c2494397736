import { openSceneFile } from "../files/sceneFiles.ts";
import { app, useApp, useHistory } from "../store/useApp.ts";
import { t } from "../text/text.ts";

/** In the view's place while the open scene has a fault that leaves nothing to show. */
export function NoView() {
  const error = useApp((state) => state.error);
  const { undo } = useHistory();
  if (!error) return null;
  return (
    <div className="no-view" role="status">
      <h2>{t("corner.noView.title")}</h2>
      <p>
        {error.path && <code>{error.path}</code>} {error.wrong}
      </p>
      <p className="quiet">{t("corner.noView.wanted", { wanted: error.wanted })}</p>
      <div className="no-scene-buttons">
        {undo && (
          <button type="button" className="button" onClick={() => app.getState().undo()}>
            {t("shell.history.undoOf", { step: undo })}
          </button>
        )}
        <button type="button" className="button" onClick={() => void openSceneFile()}>
          {t("corner.noView.open")}
        </button>
      </div>
    </div>
  );
}
