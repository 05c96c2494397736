import type { MeasuredState } from "../../check/measures.ts";
import type { ModelBody } from "../../check/model.ts";
import type { Stage } from "../corner/useStage.ts";
import { hitBehindCut } from "../cut/hitBehindCut.ts";
import type { SurfaceHit } from "../points/drag/surface.ts";
import { app } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import type { Cut } from "../viewport/cut.ts";
import type { GrabPlace } from "../viewport/gestures.ts";
import type { Sight } from "../viewport/sight.ts";
import { addPick, type Picked, useMeasuring } from "./measuring.ts";
import { pickUnder } from "./pickUnder.ts";

/** What measures are taken of, as it is shown. */
export interface MeasuredScene {
  readonly stage: Stage;
  readonly state: MeasuredState;
  /** What is cut away; null: nothing. */
  readonly cut: Cut | null;
}

/** The shown part under the pointer: solid ones first, glass where there is no solid one. */
function hitUnder({ x, y }: GrabPlace, sight: Sight, { stage, cut }: MeasuredScene): SurfaceHit | null {
  const { bodies, show } = app.getState();
  const isGlass = (body: ModelBody) => show[body.group] === "glass" || stage.glassKeys.has(body.key);
  const shown = bodies.filter(({ group }) => show[group] !== "off");
  const ray = sight.rayAt(x, y);
  const hit = (those: readonly ModelBody[]) => hitBehindCut(those, stage.poses, ray, cut);
  return hit(shown.filter((body) => !isGlass(body))) ?? hit(shown.filter(isGlass));
}

function under(at: GrabPlace, sight: Sight, shown: MeasuredScene): Picked | "no-line" | null {
  const { kind } = useMeasuring.getState();
  return pickUnder(kind, at, { state: shown.state, sight, hit: hitUnder(at, sight, shown) });
}

/** A press while measuring picks what lies there, or says why not. */
export function pressMeasure(at: GrabPlace, sight: Sight, shown: MeasuredScene): void {
  const picked = under(at, sight, shown);
  if (picked === null) useMeasuring.setState({ refusal: t("measure.nothingThere") });
  else if (picked === "no-line") useMeasuring.setState({ refusal: t("measure.noLine") });
  else addPick(picked);
}

export function hoverMeasure(at: GrabPlace, sight: Sight, shown: MeasuredScene): void {
  const found = under(at, sight, shown);
  const hover = found === "no-line" ? null : found;
  if (JSON.stringify(hover) !== JSON.stringify(useMeasuring.getState().hover)) useMeasuring.setState({ hover });
}
