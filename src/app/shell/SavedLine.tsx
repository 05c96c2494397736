import { useApp } from "../store/useApp.ts";
import type { Layout } from "./useLayout.ts";

const WHERE =
  "The work is kept in this browser on this machine, and nowhere else. To take it along, save the scene as a file.";

/** When the work was last kept in this browser, or that it is not. */
export function SavedLine({ layout }: { layout: Layout }) {
  const saved_ms = useApp((state) => state.saved_ms);
  const trouble = useApp((state) => state.saveTrouble);
  if (trouble) return <span className="saved trouble">not saved</span>;
  if (saved_ms === null) return <span className="saved">not saved yet</span>;
  return (
    <span className="saved" title={WHERE}>
      kept{layout === "wide" ? " in this browser" : ""} {clock(saved_ms)}
    </span>
  );
}

function clock(ms: number): string {
  const time = new Date(ms);
  return `${String(time.getHours()).padStart(2, "0")}:${String(time.getMinutes()).padStart(2, "0")}`;
}
