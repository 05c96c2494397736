import { add, mirror, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { measuredPoint, withMeasured } from "../../scene/measured.ts";
import type { Side } from "../../scene/scene.ts";
import { mountsOf } from "../../studies/jig/sensitivity.ts";
import { type PointInfo, pointInfos } from "../points/pointInfo.ts";
import { keptSceneOf } from "../store/tried.ts";
import { app } from "../store/useApp.ts";
import { withinText } from "../text/formats.ts";
import { t } from "../text/text.ts";

/** Mounts on the chassis, in the order of the file. */
export function mountInfos(document: SceneDocument): readonly PointInfo[] {
  return pointInfos(document).filter(({ side }) => side === "chassis");
}

/** Those of them that hold a member: the wheel's angles hang on them. */
export function memberMounts(document: SceneDocument): readonly PointInfo[] {
  const scene = keptSceneOf(document);
  const names = new Set(mountsOf(document, scene).map(({ point }) => point));
  return mountInfos(document).filter(({ name }) => names.has(name));
}

/** Where a mount is on a side: as it was measured, or else as it is drawn. Car coordinates, mm. */
export function placeOnSide(document: SceneDocument, side: Side, info: PointInfo): Vec3 {
  const drawn = side === "left" ? info.place : mirror(info.place);
  return measuredPoint(document, side, info.name)?.at ?? drawn;
}

/** A correction is told as of the left side: on the right it goes the image's way. */
export function correctedPlace(document: SceneDocument, side: Side, info: PointInfo, by: Vec3): Vec3 {
  return add(placeOnSide(document, side, info), side === "left" ? by : mirror(by));
}

/** Keeps where a mount was welded as one named step; null: it is as drawn. The drawing stays as it is. */
export function keepWelded(info: PointInfo, side: Side, at: Vec3 | null): void {
  const { document } = app.getState();
  if (!document) return;
  const point = withinText(info.title);
  keepBeside(
    t(`asBuilt.steps.${at ? "welded" : "forgotten"}.${side}`, { point }),
    withMeasured(document, side, info.name, at && { at }),
  );
}

/** Keeps a correction as if it had been made and measured. */
export function keepCorrected(info: PointInfo, side: Side, by: Vec3): void {
  const { document } = app.getState();
  if (!document) return;
  const at = correctedPlace(document, side, info, by);
  const point = withinText(info.title);
  keepBeside(t(`asBuilt.steps.corrected.${side}`, { point }), withMeasured(document, side, info.name, { at }));
}

/** What was measured is no move: it is kept beside a move that may be tried, which stays tried. */
function keepBeside(stepName: string, document: SceneDocument): void {
  const { tried, edit, tryMove } = app.getState();
  edit(stepName, document);
  if (tried) tryMove(tried);
}
