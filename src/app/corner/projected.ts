import { create } from "zustand";
import type { ProjectedPoint } from "../viewport/picture.ts";

/** Where the touch and the wheel centres stand in the picture, CSS px; follows every frame. */
interface Projected {
  readonly points: readonly ProjectedPoint[];
}

export const useProjected = create<Projected>()(() => ({ points: [] }));

export function setProjected(points: readonly ProjectedPoint[]): void {
  useProjected.setState({ points });
}
