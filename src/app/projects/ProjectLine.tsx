import { openSceneFile, saveSceneFile } from "../files/sceneFiles.ts";
import { useApp } from "../store/useApp.ts";
import { useProjectDialogs } from "./dialogs.ts";
import { desk, useDesk } from "./theDesk.ts";
import { count, whenOf } from "./words.ts";

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
          {refused && <b>Nothing was changed. </b>}
          This project is open in another tab: here you look on, and see what is changed there.
        </p>
        <button type="button" className="button" onClick={() => void desk.takeOver()}>
          Change it here
        </button>
        <button type="button" className="button" onClick={() => void desk.keepAsCopy()}>
          Go on with a copy
        </button>
      </div>
    );
  }
  if (standing !== "cut off") return null;
  return (
    <div className="file-line trouble" role="alert">
      <p>
        <b>Not saved: another tab has changed this project meanwhile.</b> What you did last is on this page only;
        nothing of either is lost yet.
      </p>
      <button type="button" className="button go" onClick={() => void desk.keepAsCopy()}>
        Keep mine as a copy
      </button>
      <button type="button" className="button" onClick={() => void saveSceneFile()}>
        Save a file
      </button>
      <button type="button" className="button" onClick={() => void desk.showOther()}>
        Let mine go
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
        <b>This browser has thrown away what it kept:</b> {count(gone.projects, "project")}, last “{gone.title}” of{" "}
        {whenOf(gone.changed_ms)}.{" "}
        {isSavedAnew ? "The project on this page was saved anew." : "If you saved files, open them again."}
      </p>
      <button type="button" className="button" onClick={() => void (isSavedAnew ? saveSceneFile() : openSceneFile())}>
        {isSavedAnew ? "Save a file" : "Open a scene file"}
      </button>
      <button type="button" className="button" onClick={desk.acceptGone}>
        Close
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
        Close
      </button>
    </div>
  );
}
