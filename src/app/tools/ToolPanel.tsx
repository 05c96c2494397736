import "./tools.css";
import type { ReactNode } from "react";
import { Choices } from "../shell/Choices.tsx";
import { t } from "../text/text.ts";
import { closeTools, TOOLS, type Tool, useTools } from "./toolsStore.ts";

/** Opens the tools that lie over the view, or closes them. */
export function ToolsButton() {
  const open = useTools((state) => state.open);
  return (
    <button
      type="button"
      className="group-chip tools-button"
      aria-expanded={open !== null}
      onClick={() => useTools.setState({ open: open === null ? "measure" : null })}
    >
      {t("tools.button")}
    </button>
  );
}

/** One tool's panel at the view's edge; the others are a press away. A tool without one here has its place elsewhere. */
export function ToolPanel({ panels }: { panels: Readonly<Partial<Record<Tool, ReactNode>>> }) {
  const open = useTools((state) => state.open);
  if (open === null || !panels[open]) return null;
  return (
    <section className="tool-panel" aria-label={t(`tools.names.${open}`)} data-tool={open}>
      <ToolHead open={open} />
      <div className="tool-body">{panels[open]}</div>
    </section>
  );
}

/** The tools' names, the open one marked, and the way out. */
export function ToolHead({ open }: { open: Tool }) {
  return (
    <div className="tool-head">
      <Choices
        label={t("tools.label")}
        options={TOOLS.map((value) => ({ value, name: t(`tools.names.${value}`) }))}
        value={open}
        onChoose={(tool) => useTools.setState({ open: tool })}
      />
      <button type="button" className="button plain" onClick={closeTools}>
        {t("tools.close")}
      </button>
    </div>
  );
}
