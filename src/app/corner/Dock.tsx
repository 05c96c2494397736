import { DragBar } from "../points/drag/DragBar.tsx";
import { Choices } from "../shell/Choices.tsx";
import { app, useApp, useAppLater } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { poseName } from "../words/names.ts";
import { RunButton } from "./RunButton.tsx";

const WHEELS = (["together", "opposed"] as const).map((value) => ({ value, name: t(`corner.dock.${value}`) }));
const STANDS = (["behind", "left", "right", "above"] as const).map((value) => ({
  value,
  name: t(`corner.stand.names.${value}`),
}));

/** The engine's pose, the wheels and the stand, at the foot of the view. */
export function Dock() {
  // on the way to a pose the engine is in none
  const pose = useApp((state) => (state.share === 1 ? state.pose : null));
  const wheels = useApp((state) => state.wheels);
  const scene = useAppLater((state) => state.scene);
  const poses = scene?.powertrain.poses ?? [];
  const state = app.getState();
  return (
    <div className="dock">
      <DragBar />
      <div className="dock-group">
        <RunButton />
      </div>
      {poses.length > 1 && (
        <div className="dock-group">
          <span className="dock-label">{t("corner.dock.engine")}</span>
          <Choices
            label={t("corner.dock.engine")}
            options={poses.map(({ id }) => ({ value: id, name: poseName(id) }))}
            value={pose}
            onChoose={(id) => state.setPose(id)}
          />
        </div>
      )}
      {scene?.sides.length === 2 && (
        <div className="dock-group">
          <span className="dock-label">{t("corner.dock.wheels")}</span>
          <Choices label={t("corner.dock.wheels")} options={WHEELS} value={wheels} onChoose={state.setWheels} />
        </div>
      )}
      <StandChoices />
    </div>
  );
}

/** From where the view looks. */
export function StandChoices() {
  const stand = useApp((state) => state.stand);
  return (
    <div className="dock-group stand">
      <span className="dock-label">{t("corner.stand.label")}</span>
      <Choices label={t("corner.stand.label")} options={STANDS} value={stand} onChoose={app.getState().setStand} />
    </div>
  );
}
