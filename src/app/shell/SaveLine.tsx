import { saveSceneFile } from "../files/sceneFiles.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";

/** One line below the top bar while the browser does not keep the work, with the way to keep it all the same. */
export function SaveLine() {
  const trouble = useApp((state) => state.saveTrouble);
  const isOpen = useApp((state) => state.document !== null);
  if (!trouble) return null;
  return (
    <div className="file-line trouble" role="alert">
      <p>{trouble}</p>
      {isOpen && (
        <button type="button" className="button" onClick={() => void saveSceneFile()}>
          {t("shell.saved.saveFile")}
        </button>
      )}
    </div>
  );
}
