import { openSceneFile } from "../files/sceneFiles.ts";
import { openSample, SAMPLES } from "../projects/samples.ts";
import { showBegin } from "../setup/setupStore.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";

/** What there is to do before a scene is open. */
export function NoScene({ loading }: { loading: boolean }) {
  const error = useApp((state) => state.error);
  const sample = SAMPLES[0];
  if (loading) return <main className="no-scene" aria-busy="true" />;
  return (
    <main className="no-scene">
      <h1>{t("shell.noScene.title")}</h1>
      <p className="quiet">{t("shell.noScene.what")}</p>
      {error && <p className="trouble-line">{error.message}</p>}
      <div className="no-scene-buttons">
        <button type="button" className="button" onClick={showBegin}>
          {t("shell.noScene.begin")}
        </button>
        <button type="button" className="button" onClick={() => void openSceneFile()}>
          {t("shell.noScene.open")}
        </button>
        {sample && (
          <button type="button" className="button go" onClick={() => void openSample(sample)}>
            {t("shell.noScene.sample")}
          </button>
        )}
      </div>
    </main>
  );
}
