import { create } from "zustand";

/** What can be laid over the view. */
export const TOOLS = ["measure", "section", "ghosts", "envelope", "gear", "loads", "studies"] as const;
export type Tool = (typeof TOOLS)[number];

interface ToolsLook {
  /** Whose panel stands open; null: none. */
  readonly open: Tool | null;
}

/** Neither saved nor undone. */
export const useTools = create<ToolsLook>()(() => ({ open: null }));

/** Opens the tool's panel, or closes it where it is open. */
export function toggleTool(tool: Tool): void {
  useTools.setState({ open: useTools.getState().open === tool ? null : tool });
}

export function closeTools(): void {
  useTools.setState({ open: null });
}
