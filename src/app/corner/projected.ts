import { useMemo } from "react";
import { createStore } from "zustand/vanilla";
import { pace } from "../store/pace.ts";
import type { ProjectedPoint } from "../viewport/picture.ts";

/** Where the touch and the wheel centres stand in the picture, CSS px; follows every frame. */
interface Projected {
  readonly points: readonly ProjectedPoint[];
}

const projected = createStore<Projected>()(() => ({ points: [] }));

export const useProjected: <T>(select: (state: Projected) => T) => T = pace.hookFor(projected);

/** So many of the points, from one on: the same list as long as none of them stands elsewhere. */
export function useProjectedRange(from: number, count: number): readonly ProjectedPoint[] {
  const select = useMemo(() => {
    let last: readonly ProjectedPoint[] = [];
    return ({ points }: Projected): readonly ProjectedPoint[] => {
      const now = points.slice(from, from + count);
      if (now.length !== last.length || !now.every((point, i) => isAt(point, last[i]!))) last = now;
      return last;
    };
  }, [from, count]);
  return useProjected(select);
}

function isAt(one: ProjectedPoint, other: ProjectedPoint): boolean {
  return one.x === other.x && one.y === other.y && one.visible === other.visible;
}

export function setProjected(points: readonly ProjectedPoint[]): void {
  projected.setState({ points });
}
