import { createStore } from "zustand/vanilla";
import { pace } from "../store/pace.ts";
import type { ProjectedPoint } from "../viewport/picture.ts";

/** Where the touch and the wheel centres stand in the picture, CSS px; follows every frame. */
interface Projected {
  readonly points: readonly ProjectedPoint[];
}

const projected = createStore<Projected>()(() => ({ points: [] }));

export const useProjected: <T>(select: (state: Projected) => T) => T = pace.hookFor(projected);

export function setProjected(points: readonly ProjectedPoint[]): void {
  projected.setState({ points });
}
