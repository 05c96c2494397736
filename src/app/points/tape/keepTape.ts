import type { SceneDocument } from "../../../scene/document.ts";
import { InputError } from "../../../scene/error.ts";
import { type MeasuredPoint, withMeasured } from "../../../scene/measured.ts";
import { withBoltedUp, withPoint } from "../../../scene/points.ts";
import { resolveScene } from "../../../scene/resolve.ts";
import { withPointMeasured } from "../../../scene/setup/setup.ts";
import type { TapedPlace } from "../../../scene/tape.ts";
import { liveCorner } from "../../store/corners.ts";
import { app } from "../../store/useApp.ts";
import { withinText } from "../../text/formats.ts";
import { t } from "../../text/text.ts";
import type { Meaning, PointInfo } from "../pointInfo.ts";
import { withDetails } from "../withDetails.ts";
import { type DraftReading, type TapeSetting, tapeRecord } from "./tapeDraft.ts";

/**
 * Named after the point and how it came about: "Undo: upper link, inboard end by tape". Gives why it cannot be kept where
 * the corner does not go together with the point there; null: it is kept.
 */
export function keepTape(
  info: PointInfo,
  { document, side }: TapeSetting,
  reading: DraftReading,
  place: TapedPlace,
  spread_mm: number,
  meaning: Meaning,
): string | null {
  const tolerance_mm = Math.ceil(spread_mm * 10) / 10;
  const how = t("points.tape.how", { number: reading.tapes.length });
  const measured: MeasuredPoint = { at: place.at, tolerance_mm, how, tapes: tapeRecord(reading) };
  const placed = (): SceneDocument => {
    if (side === "right") return withMeasured(document, "right", info.name, measured);
    const move = meaning === "bolt" ? withBoltedUp : withPoint;
    const detailed = withDetails(move(document, info.name, place.at), info.name, { tolerance_mm, how });
    return withPointMeasured(withMeasured(detailed, "left", info.name, measured), info.name);
  };
  const { tried, edit, tryMove } = app.getState();
  try {
    const next = placed();
    const scene = resolveScene(next);
    for (const one of scene.sides) liveCorner(scene, one);
    edit(t(`points.steps.${side === "right" ? "rightTape" : "tape"}`, { point: withinText(info.title) }), next);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return t("points.tape.refused", { wrong: error.wrong, wanted: error.wanted });
  }
  // another point's move that is being tried stays tried
  if (tried && (side === "right" || tried.point !== info.name)) tryMove(tried);
  return null;
}
