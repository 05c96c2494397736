import { type MeasuredPoint, withMeasured } from "../../../scene/measured.ts";
import { withBoltedUp, withPoint } from "../../../scene/points.ts";
import type { TapedPlace } from "../../../scene/tape.ts";
import { app } from "../../store/useApp.ts";
import type { Meaning, PointInfo } from "../pointInfo.ts";
import { withDetails } from "../withDetails.ts";
import { type DraftReading, type TapeSetting, tapeRecord } from "./tapeDraft.ts";

/** Named after the point and how it came about: "Undo: upper link, inboard end by tape". */
export function keepTape(
  info: PointInfo,
  { document, side }: TapeSetting,
  reading: DraftReading,
  place: TapedPlace,
  spread_mm: number,
  meaning: Meaning,
): void {
  const tolerance_mm = Math.ceil(spread_mm * 10) / 10;
  const how = `tape from ${reading.tapes.length} studs`;
  const measured: MeasuredPoint = { at: place.at, tolerance_mm, how, tapes: tapeRecord(reading) };
  const name = info.title.charAt(0).toLowerCase() + info.title.slice(1);
  const { tried, edit, tryMove } = app.getState();
  if (side === "right") {
    edit(`right ${name} by tape`, withMeasured(document, "right", info.name, measured));
  } else {
    const moved =
      meaning === "bolt" ? withBoltedUp(document, info.name, place.at) : withPoint(document, info.name, place.at);
    const detailed = withDetails(moved, info.name, { tolerance_mm, how });
    edit(`${name} by tape`, withMeasured(detailed, "left", info.name, measured));
  }
  // another point's move that is being tried stays tried
  if (tried && (side === "right" || tried.point !== info.name)) tryMove(tried);
}
