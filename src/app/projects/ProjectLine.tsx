import { openSceneFile, saveSceneFile } from "../files/sceneFiles.ts";
import { useApp } from "../store/useApp.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { useProjectDialogs } from "./dialogs.ts";
import { desk, useDesk } from "./theDesk.ts";
import { whenOf } from "./words.ts";

/** Lines below the top bar: the project is another tab's, or cannot be saved to, or the browser threw work away. */
export function ProjectLine() {
  return (
    <>
      <GoneLine />
      <StandingLine />
      <NoteLine />
    </>
  );
}

function StandingLine() {
  const standing = useApp((state) => state.standing);
  const refused = useApp((state) => state.refusedEdits > 0);
  if (standing === "watched") {
    return (
      <div className="file-line" role={refused ? "alert" : "status"}>
        <p>
          <Rich text={refused ? t("projects.watchedRefused") : t("projects.watched")} />
        </p>
        <button type="button" className="button" onClick={() => void desk.takeOver()}>
          {t("projects.changeHere")}
        </button>
        <button type="button" className="button" onClick={() => void desk.keepAsCopy()}>
          {t("projects.goOnWithCopy")}
        </button>
      </div>
    );
  }
  if (standing !== "cut-off") return null;
  return (
    <div className="file-line trouble" role="alert">
      <p>
        <Rich text={t("projects.cutOff")} />
      </p>
      <button type="button" className="button go" onClick={() => void desk.keepAsCopy()}>
        {t("projects.keepMine")}
      </button>
      <button type="button" className="button" onClick={() => void saveSceneFile()}>
        {t("projects.saveFile")}
      </button>
      <button type="button" className="button" onClick={() => void desk.showOther()}>
        {t("projects.letMineGo")}
      </button>
    </div>
  );
}

function GoneLine() {
  const gone = useDesk((state) => state.gone);
  const isSavedAnew = useDesk((state) => state.openId !== null && state.savedAnew);
  if (!gone) return null;
  return (
    <div className="file-line trouble" role="alert">
      <p>
        <Rich
          text={t(`projects.thrownAway.${isSavedAnew ? "savedAnew" : "openFiles"}`, {
            count: gone.projects,
            title: gone.title,
            when: whenOf(gone.changed_ms),
          })}
        />
      </p>
      <button type="button" className="button" onClick={() => void (isSavedAnew ? saveSceneFile() : openSceneFile())}>
        {isSavedAnew ? t("projects.saveFile") : t("projects.openFile")}
      </button>
      <button type="button" className="button" onClick={desk.acceptGone}>
        {t("projects.close")}
      </button>
    </div>
  );
}

/** The list of projects tells it itself while it is shown. */
function NoteLine() {
  const note = useDesk((state) => state.note);
  const isList = useProjectDialogs((state) => state.shown === "projects");
  if (!note || isList) return null;
  return (
    <div className="file-line" role="status">
      <p>{note}</p>
      <button type="button" className="button" onClick={desk.closeNote}>
        {t("projects.close")}
      </button>
    </div>
  );
}
