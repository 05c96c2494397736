import { useEffect, useState } from "react";
import { t } from "../text/text.ts";
import { openFiles } from "./sceneFiles.ts";
import "./files.css";

/** Takes files that are dropped anywhere on the window, and says so while they hang over it. */
export function DropRoom() {
  const [over, setOver] = useState(false);
  useEffect(() => {
    // entering a child comes before leaving its parent, so the two are counted against each other
    let depth = 0;
    const enter = (event: DragEvent) => {
      if (!bringsFiles(event)) return;
      event.preventDefault();
      depth++;
      setOver(true);
    };
    const hover = (event: DragEvent) => {
      if (bringsFiles(event)) event.preventDefault();
    };
    const leave = (event: DragEvent) => {
      if (bringsFiles(event) && --depth <= 0) close();
    };
    const drop = (event: DragEvent) => {
      if (!bringsFiles(event)) return;
      event.preventDefault();
      close();
      void openFiles([...(event.dataTransfer?.files ?? [])]);
    };
    const close = () => {
      depth = 0;
      setOver(false);
    };
    window.addEventListener("dragenter", enter);
    window.addEventListener("dragover", hover);
    window.addEventListener("dragleave", leave);
    window.addEventListener("drop", drop);
    return () => {
      window.removeEventListener("dragenter", enter);
      window.removeEventListener("dragover", hover);
      window.removeEventListener("dragleave", leave);
      window.removeEventListener("drop", drop);
    };
  }, []);
  return (
    over && (
      <div className="drop-veil" role="status">
        <p>
          <b>{t("files.drop")}</b>
          <span>{t("files.dropWhat")}</span>
        </p>
      </div>
    )
  );
}

/** What the browser calls files among the kinds of data that are dragged. */
const DRAGGED_KEY = "Files";

function bringsFiles(event: DragEvent): boolean {
  return event.dataTransfer?.types.includes(DRAGGED_KEY) ?? false;
}
