import { readRevolution, revolve } from "./revolution.ts";
import type { Solid } from "./solid.ts";

/** Grooves of the drawn tread: common practice for a road tyre, no source. They cut inwards: nothing is drawn outside the checked solid. */
const GROOVES = [-0.52, -0.18, 0.18, 0.52];
const GROOVE_WIDTH = 0.055;
const GROOVE_DEPTH_MM = 5;
/** The foot's share of the width: walls so wide that a picture of a whole car still samples them everywhere. */
const GROOVE_FOOT = 0.35;
const SEGMENTS = 144;

/**
 * The tyre as the eye expects it: the checked solid's own outline with four grooves round its tread. Null where the solid
 * is no ring of revolution with a flat or crowned tread; then the solid is drawn as it is.
 */
export function tyreMesh(solid: Solid): { positions: Float32Array; indices: Uint32Array } | null {
  const revolution = readRevolution(solid);
  if (revolution === null) return null;
  const { outline } = revolution;
  const overall = Math.max(...outline.map(([, radius]) => radius));
  const half = Math.max(...outline.map(([along]) => Math.abs(along)));
  const n = outline.length;
  const grooved: (readonly [number, number])[] = [];
  let cut = false;
  for (let i = 0; i < n; i++) {
    const from = outline[i]!;
    const to = outline[(i + 1) % n]!;
    grooved.push(from);
    const onTread = from[1] > overall - 0.02 * overall && to[1] > overall - 0.02 * overall;
    if (!onTread || Math.abs(to[0] - from[0]) < 1e-6) continue;
    const within = GROOVES.map((share) => share * half)
      .filter(
        (along) =>
          inside(along - half * GROOVE_WIDTH, from[0], to[0]) && inside(along + half * GROOVE_WIDTH, from[0], to[0]),
      )
      .sort((a, b) => (a - b) * (to[0] - from[0]));
    for (const along of within) {
      const way = Math.sign(to[0] - from[0]);
      const radius = (x: number) => from[1] + ((to[1] - from[1]) * (x - from[0])) / (to[0] - from[0]);
      const near = along - way * half * GROOVE_WIDTH;
      const far = along + way * half * GROOVE_WIDTH;
      const [nearFoot, farFoot] = [
        along - way * half * GROOVE_WIDTH * GROOVE_FOOT,
        along + way * half * GROOVE_WIDTH * GROOVE_FOOT,
      ];
      grooved.push(
        [near, radius(near)],
        [nearFoot, radius(nearFoot) - GROOVE_DEPTH_MM],
        [farFoot, radius(farFoot) - GROOVE_DEPTH_MM],
        [far, radius(far)],
      );
      cut = true;
    }
  }
  return cut ? revolve(revolution, grooved, SEGMENTS) : null;
}

function inside(x: number, a: number, b: number): boolean {
  return x > Math.min(a, b) && x < Math.max(a, b);
}
