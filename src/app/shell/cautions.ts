import { create } from "zustand";

/** Whether the cautions are shown because the builder asked for them. */
export const useCautions = create(() => ({ asked: false }));

export function showCautions(): void {
  useCautions.setState({ asked: true });
}
