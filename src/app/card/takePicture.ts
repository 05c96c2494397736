import type { Vec3 } from "../../maths/vec3.ts";
import { touchNow } from "../corner/touch.ts";
import { viewHandle } from "../shell/viewHandle.ts";
import type { App } from "../store/actions.ts";
import { livePoses } from "../store/livePoses.ts";
import { findPair } from "../store/sessionActions.ts";
import { app } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { eyeText } from "../words/direction.ts";
import { measuresPainter } from "./paintMeasures.ts";
import { INSET_WIDTH, withCloseLook } from "./withCloseLook.ts";

const WIDTH = 960;
const HEIGHT = 600;
const SPAN_mm = 190;
const ON_PAPER = { theme: "daylight", white: true, pixelRatio: 2 } as const;

/**
 * The view as the builder looks at it, in daylight on white so that it prints; while a touch is chosen, with the close
 * look at it in a corner, and with the pinned measures that are shown. Rejects where no view is shown.
 */
export async function takePicture(compose: typeof withCloseLook = withCloseLook): Promise<Blob> {
  const view = viewHandle.current;
  if (!view) throw new Error(t("card.trouble.noView"));
  const over = measuresPainter(app.getState(), WIDTH, HEIGHT);
  const main = view.snapshot(WIDTH, HEIGHT, over ? { ...ON_PAPER, over } : ON_PAPER);
  const look = await closeLookOf(app.getState());
  if (!look) return main;
  const { at, from, only } = look;
  const inset = view.snapshot(INSET_WIDTH, INSET_WIDTH, { ...ON_PAPER, view: { at, from, span_mm: SPAN_mm }, only });
  return compose(await main, await inset, t("card.closeLook", { side: eyeText(from) }));
}

interface CloseLookSpec {
  readonly at: Vec3;
  readonly from: Vec3;
  readonly only: ReadonlySet<string>;
}

/** The chosen touch with the wheels where they are shown; null while none is chosen. */
async function closeLookOf(state: App): Promise<CloseLookSpec | null> {
  const { chosenPair, result, scene, bodies, travel_mm, pose, share } = state;
  const pair = chosenPair === null ? undefined : findPair({ result }, chosenPair);
  if (!pair || !scene) return null;
  // comes with the 3D picture, which the page does not wait for
  const { closeLookDirection } = await import("../viewport/closeLookStyle.ts");
  return {
    at: touchNow(pair, scene, bodies, livePoses(scene, bodies, { travel_mm, pose, share })),
    from: closeLookDirection(pair.partingOfA),
    only: new Set([pair.a, pair.b]),
  };
}
