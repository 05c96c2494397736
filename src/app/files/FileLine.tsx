import { useEffect } from "react";
import { app, useApp } from "../store/useApp.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { forgetTrouble, openSceneFile, useFileTrouble } from "./sceneFiles.ts";
import "./files.css";

/** How long the line tells that a file was saved. */
const SAVED_ms = 5000;

/** Listens first, so that Escape closes the line and does nothing else; in a field, a menu or a dialog it is theirs. */
function closeByEscapeOrOtherScene(): () => void {
  const press = (event: KeyboardEvent) => {
    const isTheirs =
      (event.target instanceof Element && event.target.closest("input, textarea, select")) ||
      document.querySelector('[role="dialog"], [role="alertdialog"], [role="menu"], [role="listbox"]');
    if (event.key !== "Escape" || isTheirs) return;
    event.preventDefault();
    forgetTrouble();
  };
  const unsubscribe = app.subscribe((state, before) => {
    const isOther = state.fileName !== before.fileName || state.document?.title !== before.document?.title;
    if (isOther) forgetTrouble();
  });
  window.addEventListener("keydown", press, true);
  return () => {
    unsubscribe();
    window.removeEventListener("keydown", press, true);
  };
}

/** One line below the top bar: what was wrong with a file, or which meshes of the scene are still to come. */
export function FileLine() {
  const trouble = useFileTrouble((state) => state.trouble);
  const missing = useFileTrouble((state) => state.missing);
  const files = useApp((state) => state.files);
  const saved = useFileTrouble((state) => state.saved);
  const told = trouble !== null;
  useEffect(() => {
    if (saved === null) return;
    const timer = setTimeout(() => useFileTrouble.setState({ saved: null }), SAVED_ms);
    return () => clearTimeout(timer);
  }, [saved]);
  useEffect(() => (told ? closeByEscapeOrOtherScene() : undefined), [told]);
  const still = missing.filter((path) => !files.has(path));
  if (trouble) {
    return (
      <div className="file-line trouble" role="alert">
        <p>
          <b>{trouble.file ? t("files.head", { head: trouble.head, file: trouble.file }) : trouble.head}</b>{" "}
          {trouble.path && <code>{trouble.path}</code>} {trouble.wrong}
          {trouble.wanted && <span className="quiet">{t("files.wantedAfter", { wanted: trouble.wanted })}</span>}
        </p>
        <button type="button" className="button" onClick={forgetTrouble}>
          {t("files.close")}
        </button>
      </div>
    );
  }
  if (saved !== null) {
    return (
      <div className="file-line" role="status">
        <p>{t("files.saved", { file: saved })}</p>
      </div>
    );
  }
  if (still.length === 0 || !app.getState().document) return null;
  return (
    <div className="file-line" role="status">
      <p>
        <Rich text={t("files.missing", { count: still.length, files: still.join(", ") })} />
      </p>
      <button type="button" className="button" onClick={() => void openSceneFile()}>
        {t("files.choose")}
      </button>
      <button type="button" className="button" onClick={forgetTrouble}>
        {t("files.close")}
      </button>
    </div>
  );
}
