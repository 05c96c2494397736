import { beginSetup, blankCorner, withSetupClosed } from "../../scene/setup/setup.ts";
import type { CornerKind } from "../../scene/setup/setupDocument.ts";
import { usePointsLook } from "../points/pointsStore.ts";
import { desk } from "../projects/theDesk.ts";
import { app } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { goTo, useSetup } from "./setupStore.ts";

/** A new project that asks one measurement at a time. */
export async function beginGuided(kind: CornerKind): Promise<void> {
  await openNew({ ...beginSetup(kind), title: t("setup.begin.usualTitle") });
  goTo(null);
  app.getState().setPlace("setup");
}

/** A new project with everything at its usual place, in the table of all points. */
export async function beginBlank(kind: CornerKind): Promise<void> {
  const blank = blankCorner(kind);
  await openNew(withSetupClosed({ ...blank, title: t(`setup.kinds.${kind}.title`) }, true));
  usePointsLook.setState({ list: "points", tableOpen: true, meaning: "measured" });
  app.getState().setPlace("points");
}

async function openNew(document: ReturnType<typeof beginSetup>): Promise<void> {
  useSetup.setState({ beginning: false });
  usePointsLook.setState({ datumId: null });
  await desk.openNew(document, "corner.json");
}
