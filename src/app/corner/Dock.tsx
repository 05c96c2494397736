import { DragBar } from "../points/drag/DragBar.tsx";
import { Choices } from "../shell/Choices.tsx";
import type { Stand } from "../store/state.ts";
import { app, useApp } from "../store/useApp.ts";
import { poseName } from "../words/names.ts";
import { RunButton } from "./RunButton.tsx";

const WHEELS = [
  { value: "together", name: "together" },
  { value: "opposed", name: "opposed" },
] as const;
const STANDS: readonly { readonly value: Stand; readonly name: string }[] = [
  { value: "behind", name: "behind" },
  { value: "left", name: "left" },
  { value: "right", name: "right" },
  { value: "above", name: "above" },
];

/** The engine's pose, the wheels and the stand, at the foot of the view. */
export function Dock() {
  // on the way to a pose the engine is in none
  const pose = useApp((state) => (state.share === 1 ? state.pose : null));
  const wheels = useApp((state) => state.wheels);
  const scene = useApp((state) => state.scene);
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
          <span className="dock-label">Engine</span>
          <Choices
            label="Engine"
            options={poses.map(({ id }) => ({ value: id, name: poseName(id) }))}
            value={pose}
            onChoose={(id) => state.setPose(id)}
          />
        </div>
      )}
      {scene?.sides.length === 2 && (
        <div className="dock-group">
          <span className="dock-label">Wheels</span>
          <Choices label="Wheels" options={WHEELS} value={wheels} onChoose={state.setWheels} />
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
      <span className="dock-label">Look from</span>
      <Choices label="Look from" options={STANDS} value={stand} onChoose={app.getState().setStand} />
    </div>
  );
}
