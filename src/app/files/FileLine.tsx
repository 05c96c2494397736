import { app, useApp } from "../store/useApp.ts";
import { forgetTrouble, openSceneFile, useFileTrouble } from "./sceneFiles.ts";
import "./files.css";

/** One line below the top bar: what was wrong with a file, or which meshes of the scene are still to come. */
export function FileLine() {
  const trouble = useFileTrouble((state) => state.trouble);
  const missing = useFileTrouble((state) => state.missing);
  const files = useApp((state) => state.files);
  const still = missing.filter((path) => !files.has(path));
  if (trouble) {
    return (
      <div className="file-line trouble" role="alert">
        <p>
          <b>
            {trouble.head}
            {trouble.file && `: ${trouble.file}`}
          </b>{" "}
          {trouble.path && <code>{trouble.path}</code>} {trouble.wrong}
          {trouble.wanted && <span className="quiet">; wanted: {trouble.wanted}</span>}
        </p>
        <button type="button" className="button" onClick={forgetTrouble}>
          Close
        </button>
      </div>
    );
  }
  if (still.length === 0 || !app.getState().document) return null;
  return (
    <div className="file-line" role="status">
      <p>
        <b>{still.length === 1 ? "A mesh is missing" : `${still.length} meshes are missing`}:</b> {still.join(", ")}.
        Drop {still.length === 1 ? "it" : "them"} on the window.
      </p>
      <button type="button" className="button" onClick={() => void openSceneFile()}>
        Choose
      </button>
      <button type="button" className="button" onClick={forgetTrouble}>
        Close
      </button>
    </div>
  );
}
