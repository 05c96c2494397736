import { create } from "zustand";

/** Which of the dialogs about projects is shown. */
export const useProjectDialogs = create<{ readonly shown: "projects" | "steps" | null }>()(() => ({ shown: null }));

export function showProjects(): void {
  useProjectDialogs.setState({ shown: "projects" });
}

export function showSteps(): void {
  useProjectDialogs.setState({ shown: "steps" });
}

export function closeDialog(): void {
  useProjectDialogs.setState({ shown: null });
}
