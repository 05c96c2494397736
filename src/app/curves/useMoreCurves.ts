import { startTransition, useEffect, useState } from "react";
import { solveCorner } from "../../kinematics/corner.ts";
import { type Derivatives, derivativesAt } from "../../kinematics/derivatives.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import { type SpringStudy, springStudy } from "../../studies/runningGear/spring.ts";
import { fullScene } from "../gear/live.ts";
import { liveCorner, liveCurve } from "../store/corners.ts";

/** Readings that cost more than those of every curve, and hang on what the drawn scene leaves out. */
export interface MoreCurves {
  /** One for each point of the live curve; the same for either side. */
  readonly derivatives: readonly (Derivatives & { readonly travel_mm: number })[];
  readonly spring: Readonly<Partial<Record<Side, SpringStudy>>>;
}

export interface Needs {
  readonly derivatives: boolean;
  readonly spring: boolean;
}

const NOTHING: MoreCurves = { derivatives: [], spring: {} };

/** Worked out after the picture, in tasks of a few milliseconds; what was worked out last stays until then. */
export function useMoreCurves(scene: Scene | null, document: SceneDocument | null, needs: Needs): MoreCurves {
  const [more, setMore] = useState(NOTHING);
  const { derivatives, spring } = needs;
  useEffect(() => {
    if (!scene || !document || !(derivatives || spring)) return;
    let next = NOTHING;
    const tasks: (() => void)[] = [];
    if (derivatives) {
      tasks.push(() => {
        next = { ...next, derivatives: derivativesOf(scene, document) };
      });
    }
    for (const side of spring ? scene.sides : []) {
      tasks.push(() => {
        next = { ...next, spring: { ...next.spring, [side]: springOf(scene, document, side) } };
      });
    }
    let timer: ReturnType<typeof setTimeout> | undefined;
    const go = (): void => {
      const task = tasks.shift();
      task?.();
      if (task) timer = setTimeout(go);
      else startTransition(() => setMore(next));
    };
    timer = setTimeout(go);
    return () => clearTimeout(timer);
  }, [scene, document, derivatives, spring]);
  return more;
}

export function derivativesOf(scene: Scene, document: SceneDocument): MoreCurves["derivatives"] {
  const full = whole(scene, document);
  const [side] = scene.sides;
  if (!full || !side) return [];
  const corner = { ...liveCorner(scene, side).corner, scene: full };
  return liveCurve(scene, side).map(({ travel_mm }) => ({
    travel_mm,
    ...derivativesAt(corner, solveCorner(corner, travel_mm).pose),
  }));
}

function springOf(scene: Scene, document: SceneDocument, side: Side): SpringStudy | undefined {
  const full = whole(scene, document);
  const { corner, run } = liveCorner(scene, side);
  return full ? springStudy(full, { side, corner: { ...corner, scene: full }, run }) : undefined;
}

/** null for loads that cannot be: the sheet of the running gear tells why. */
function whole(scene: Scene, document: SceneDocument): Scene | null {
  try {
    return fullScene(scene, document);
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}
