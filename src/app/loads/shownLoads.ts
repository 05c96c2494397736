import { casesOf } from "../../loads/cases.ts";
import type { CornerLoads } from "../../loads/forces.ts";
import { loadsAt } from "../../loads/loadsAt.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import type { LoadCase, Loads } from "../../scene/loadRecords.ts";
import { loadsOfDocument } from "../../scene/resolveLoads.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import { liveCorner } from "../store/corners.ts";

/** Why there are no forces to show. */
export type LoadsLack =
  | { readonly why: "mass" | "damper" | "noCases" | "noLever" }
  | { readonly why: "wrong"; readonly error: InputError };

const resolved = new WeakMap<SceneDocument, Loads>();

/** The document's own loads, which the scene that is checked leaves out; the same document gives the same object. Throws InputError. */
export function itsLoads(document: SceneDocument): Loads {
  let loads = resolved.get(document);
  if (!loads) {
    loads = loadsOfDocument(document);
    resolved.set(document, loads);
  }
  return loads;
}

/** The case that is shown: the chosen one, else the first. */
export function shownCase(scene: Scene, caseId: string | null): LoadCase | undefined {
  const cases = casesOf(scene);
  return cases.find(({ id }) => id === caseId) ?? cases[0];
}

/**
 * One side's forces in one state, `loads` taken for the scene's own; solved on the main thread in a fraction of a
 * millisecond.
 */
export function loadsHere(
  scene: Scene,
  loads: Loads,
  side: Side,
  loadCase: LoadCase | undefined,
  at: { readonly travel_mm: number; readonly pose: string; readonly share: number },
): CornerLoads | LoadsLack {
  if (!loadCase) return { why: "noCases" };
  if (!scene.damper) return { why: "damper" };
  const countsStatic = loadCase.timesStatic.some((times) => times !== 0);
  if (countsStatic && loads.cornerMass_kg[side] === null) return { why: "mass" };
  try {
    const corner = { ...liveCorner(scene, side).corner, scene: { ...scene, loads } };
    return loadsAt(corner, loadCase, at)?.loads ?? { why: "noLever" };
  } catch (error) {
    if (error instanceof InputError) return { why: "wrong", error };
    throw error;
  }
}

export function isLack(found: CornerLoads | LoadsLack): found is LoadsLack {
  return "why" in found;
}
