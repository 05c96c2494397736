import { readingsAt } from "../../../buildlog/readings.ts";
import type { CurvePoint } from "../../../check/result.ts";
import type { SceneDocument } from "../../../scene/document.ts";
import { InputError } from "../../../scene/error.ts";
import { rightAsMeasured } from "../../../scene/measured.ts";
import { resolveScene } from "../../../scene/resolve.ts";
import { keptSceneOf } from "../../store/tried.ts";
import { curvesOf } from "../effects.ts";

/** What the measured right side does to the wheels at ride height, every part of its drawn length. */
export interface SidesMeaning {
  readonly left: CurvePoint;
  readonly right: CurvePoint;
  /**
   * Where the two wheels together roll: half of left toe less right toe, positive to the right. The thrust angle of an
   * alignment sheet: common practice, no source.
   */
  readonly thrust_deg: number;
}

/** null: the right side as measured does not go together at ride height, or nothing is measured that moves a wheel. */
export function sidesMeaning(document: SceneDocument): SidesMeaning | null {
  const changed = rightAsMeasured(document);
  if (changed === document) return null;
  try {
    const left = curvesOf(keptSceneOf(document)).left;
    // the right corner as measured, worked out as the left one that is its image
    const image = curvesOf(resolveScene({ ...changed, sides: "left" })).left;
    const [here, there] = [left && readingsAt(left, 0), image && readingsAt(image, 0)];
    if (!here || !there) return null;
    return { left: here, right: there, thrust_deg: (here.toe_deg - there.toe_deg) / 2 };
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}
