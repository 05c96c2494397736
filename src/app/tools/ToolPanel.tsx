import "./tools.css";
import type { ReactNode } from "react";
import { Choices } from "../shell/Choices.tsx";
import { closeTools, type Tool, useTools } from "./toolsStore.ts";
import { toolWords } from "./toolWords.ts";

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
      {toolWords.button}
    </button>
  );
}

/** One tool's panel at the view's edge; the others are a press away. */
export function ToolPanel({ panels }: { panels: Readonly<Partial<Record<Tool, ReactNode>>> }) {
  const open = useTools((state) => state.open);
  if (open === null) return null;
  return (
    <section className="tool-panel" aria-label={toolWords.names[open]}>
      <div className="tool-head">
        <Choices
          label={toolWords.label}
          options={toolWords.tools.filter(({ value }) => panels[value] !== undefined)}
          value={open}
          onChoose={(tool) => useTools.setState({ open: tool })}
        />
        <button type="button" className="button plain" onClick={closeTools}>
          {toolWords.close}
        </button>
      </div>
      <div className="tool-body">{panels[open]}</div>
    </section>
  );
}
