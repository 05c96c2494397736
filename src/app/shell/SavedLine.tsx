import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import type { Layout } from "./useLayout.ts";

/** When the work was last kept in this browser, or that it is not. */
export function SavedLine({ layout }: { layout: Layout }) {
  const saved_ms = useApp((state) => state.saved_ms);
  const trouble = useApp((state) => state.saveTrouble);
  if (trouble) return <span className="saved trouble">{t("shell.saved.not")}</span>;
  if (saved_ms === null) return <span className="saved">{t("shell.saved.notYet")}</span>;
  return (
    <span className="saved" title={t("shell.saved.where")}>
      {t(`shell.saved.${layout === "wide" ? "keptHere" : "kept"}`, { time: clock(saved_ms) })}
    </span>
  );
}

function clock(ms: number): string {
  const time = new Date(ms);
  return `${String(time.getHours()).padStart(2, "0")}:${String(time.getMinutes()).padStart(2, "0")}`;
}
