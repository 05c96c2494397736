import type { MeasuredState } from "../../check/measures.ts";
import type { ModelBody } from "../../check/model.ts";
import type { Stage } from "../corner/useStage.ts";
import { type SurfaceHit, surfaceHit } from "../points/drag/surface.ts";
import { app } from "../store/useApp.ts";
import type { GrabPlace } from "../viewport/gestures.ts";
import type { Sight } from "../viewport/sight.ts";
import { measureWords } from "./measureWords.ts";
import { addPick, type Picked, useMeasuring } from "./measuring.ts";
import { pickUnder } from "./pickUnder.ts";

/** The shown part under the pointer: solid ones first, glass where there is no solid one. */
function hitUnder({ x, y }: GrabPlace, sight: Sight, stage: Stage): SurfaceHit | null {
  const { bodies, show } = app.getState();
  const isGlass = (body: ModelBody) => show[body.group] === "glass" || stage.glassKeys.has(body.key);
  const shown = bodies.filter(({ group }) => show[group] !== "off");
  const ray = sight.rayAt(x, y);
  return (
    surfaceHit(
      shown.filter((body) => !isGlass(body)),
      stage.poses,
      ray,
    ) ?? surfaceHit(shown.filter(isGlass), stage.poses, ray)
  );
}

function under(at: GrabPlace, sight: Sight, stage: Stage, state: MeasuredState): Picked | "no line" | null {
  const { kind } = useMeasuring.getState();
  return pickUnder(kind, at, { state, sight, hit: hitUnder(at, sight, stage) });
}

/** A press while measuring picks what lies there, or says why not. */
export function pressMeasure(at: GrabPlace, sight: Sight, stage: Stage, state: MeasuredState): void {
  const picked = under(at, sight, stage, state);
  if (picked === null) useMeasuring.setState({ refusal: measureWords.nothingThere });
  else if (picked === "no line") useMeasuring.setState({ refusal: measureWords.noLine });
  else addPick(picked);
}

export function hoverMeasure(at: GrabPlace, sight: Sight, stage: Stage, state: MeasuredState): void {
  const found = under(at, sight, stage, state);
  const hover = found === "no line" ? null : found;
  if (JSON.stringify(hover) !== JSON.stringify(useMeasuring.getState().hover)) useMeasuring.setState({ hover });
}
