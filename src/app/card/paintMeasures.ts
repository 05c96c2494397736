import { ridesOfPoints } from "../../scene/pointRide.ts";
import { drawnMeasures } from "../measure/drawnMeasures.ts";
import { useGaps } from "../measure/gapsNow.ts";
import { type ShownMeasure, shownMeasures } from "../measure/useMeasureView.ts";
import { usePointsLook } from "../points/pointsStore.ts";
import { datumOf } from "../points/usePointMove.ts";
import type { App } from "../store/actions.ts";
import { liveMounts, posesOnMounts } from "../store/livePoses.ts";
import { drawnDocument } from "../store/tried.ts";
import type { SnapshotOptions } from "../viewport/snapshot.ts";
import { drawText, INK } from "./drawing.ts";

const HALO = "#ffffff";
const TEXT = 17;

/** Draws the pinned measures that are not hidden over a card's picture, in ink on white; null: there is none. */
export function measuresPainter(state: App, width: number, height: number): SnapshotOptions["over"] | null {
  const measures = measuresOf(state);
  const points = measures.flatMap((shown) => shown.points);
  if (points.length === 0) return null;
  return (context, spots) => {
    const { drawn } = drawnMeasures(measures, spots(points), state.unit, width, height);
    const lines = new Path2D(drawn.map(({ path }) => path).join(""));
    context.lineCap = "round";
    for (const [colour, line] of [
      [HALO, 5],
      [INK, 2],
    ] as const) {
      context.strokeStyle = colour;
      context.lineWidth = line;
      context.stroke(lines);
    }
    context.fillStyle = INK;
    for (const { x, y } of drawn.flatMap((one) => one.spots)) {
      context.beginPath();
      context.arc(x, y, 4, 0, 2 * Math.PI);
      context.fill();
    }
    for (const { id, value, label } of drawn) {
      context.fillStyle = HALO;
      context.fillRect(label.x, label.y, label.width, label.height);
      context.strokeStyle = INK;
      context.lineWidth = 1.5;
      context.strokeRect(label.x, label.y, label.width, label.height);
      drawText(context, `${id}  ${value}`, label.x + 8, label.y + 2, { size: TEXT, weight: 650 });
    }
  };
}

function measuresOf(state: App): ShownMeasure[] {
  const { scene, bodies, travel_mm, pose, share } = state;
  const document = drawnDocument(state);
  const list = state.document?.measures ?? [];
  if (list.length === 0 || !scene || !document) return [];
  const mounts = liveMounts(scene, { travel_mm, pose, share });
  const rides = ridesOfPoints(document);
  const now = { scene, poses: posesOnMounts(scene, bodies, mounts), mounts, rides };
  return shownMeasures(list, now, datumOf(scene, usePointsLook.getState().datumId), useGaps.getState().byId);
}
