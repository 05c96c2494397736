import { add, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { type Alteration, altered } from "../../studies/moves/alter.ts";
import type { Move } from "../../studies/moves/moves.ts";
import { type Fit, MovedPoints } from "../../studies/places/move.ts";
import { pointInfos } from "../points/pointInfo.ts";
import type { App } from "../store/actions.ts";
import type { TriedMove } from "../store/state.ts";
import { app } from "../store/useApp.ts";
import { listText, withinText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { alterationText, thinned_mm } from "./alterationText.ts";
import { wayText } from "./wayText.ts";

/** To whole hundredths, away from where the point is: what is kept clears as what was found does, and reads as it is told. */
export function tidy(by: Vec3): Vec3 {
  return by.map((value) => (Math.sign(value) * Math.ceil(Math.abs(value) * 100 - 1e-6)) / 100) as unknown as Vec3;
}

/** Shows a found move in the view, not kept yet. */
export function tryMoveFound(document: SceneDocument, { moves, fit }: Move): void {
  const { tryEdit } = app.getState();
  const [first, ...others] = moves;
  if (!first) return;
  if (others.length === 0) {
    tryPointMove(document, first.point, tidy(first.by), fit);
    return;
  }
  const points = moves.map(({ point }) => point);
  const moved = new MovedPoints(document, points, fit).at(moves.map(({ by }) => tidy(by)));
  tryEdit({ part: points.join(" "), document: moved, stepName: stepName(document, moves, fit) });
}

/** Tries one point so far from where it is. */
export function tryPointMove(document: SceneDocument, point: string, by: Vec3, fit: Fit): void {
  const place = placeOf(document, point);
  if (place) app.getState().tryMove({ point, to: add(place, by), meaning: meaningOf(fit) });
}

function meaningOf(fit: Fit): TriedMove["meaning"] {
  return fit === "cut" ? "cut" : "bolt";
}

/** "upper link, inboard end 12 back and arm, pivot 3 outboard, cut to suit" */
function stepName(document: SceneDocument, moves: Move["moves"], fit: Move["fit"]): string {
  const { unit } = app.getState();
  const each = moves.map(({ point, by }) => {
    return t("moves.pointWay", { point: withinText(titleOf(document, point)), way: wayText(by, unit) });
  });
  return t(`moves.step.${fit}`, { moves: listText(each) });
}

/** Shows a part made otherwise, or the powertrain elsewhere, in the view, not kept yet. */
export function tryAlteration(document: SceneDocument, alteration: Alteration): void {
  const part = "member" in alteration ? alteration.member : POWERTRAIN;
  const rounded: Alteration =
    alteration.kind === "thinner" ? { ...alteration, diameter_mm: thinned_mm(alteration.diameter_mm) } : alteration;
  app
    .getState()
    .tryEdit({ part, document: altered(document, rounded), stepName: alterationStep(document, alteration) });
}

const POWERTRAIN = "powertrain";

/** "powertrain 12.0 back, 3.5 up" */
function alterationStep(document: SceneDocument, alteration: Alteration): string {
  return withinText(alterationText(alteration, document, app.getState().unit, "step"));
}

/** Whether what is tried is this alteration. */
export function isTriedAlteration(
  { triedEdit }: Pick<App, "triedEdit">,
  document: SceneDocument,
  alteration: Alteration,
): boolean {
  return triedEdit !== null && triedEdit.stepName === alterationStep(document, alteration);
}

/** Whether what is tried is this move. */
export function isTriedMove(
  { tried, triedEdit }: Pick<App, "tried" | "triedEdit">,
  document: SceneDocument,
  move: Move,
) {
  const [first, ...others] = move.moves;
  if (!first) return false;
  if (others.length > 0) {
    return triedEdit?.stepName === stepName(document, move.moves, move.fit);
  }
  return isTriedAt(tried, document, first.point, tidy(first.by), move.fit);
}

/** Whether what is tried is this point so far from where it is. */
export function isTriedAt(
  tried: TriedMove | null,
  document: SceneDocument,
  point: string,
  by: Vec3,
  fit: Fit,
): boolean {
  const place = placeOf(document, point);
  if (!place || tried?.point !== point || tried.meaning !== meaningOf(fit)) return false;
  const wanted = add(place, by);
  return tried.to.every((value, k) => Math.abs(value - wanted[k]!) < 1e-9);
}

export function titleOf(document: SceneDocument, point: string): string {
  return pointInfos(document).find(({ name }) => name === point)?.title ?? point;
}

function placeOf(document: SceneDocument, point: string): Vec3 | null {
  return pointInfos(document).find(({ name }) => name === point)?.place ?? null;
}
