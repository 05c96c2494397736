import { useApp } from "../store/useApp.ts";

/** When the work was last saved in this browser, or why it is not. */
export function SavedLine() {
  const saved_ms = useApp((state) => state.saved_ms);
  const trouble = useApp((state) => state.saveTrouble);
  if (trouble) return <span className="saved trouble">not saved</span>;
  return <span className="saved">{saved_ms === null ? "not saved yet" : `saved ${clock(saved_ms)}`}</span>;
}

function clock(ms: number): string {
  const time = new Date(ms);
  return `${String(time.getHours()).padStart(2, "0")}:${String(time.getMinutes()).padStart(2, "0")}`;
}
