import { useEffect, useState } from "react";
import { runWheels, stopWheels } from "../store/runTravel.ts";
import { t } from "../text/text.ts";

/** Runs the wheels through their travel once, so that the eye can follow a part. */
export function RunButton() {
  const [running, setRunning] = useState(false);
  useEffect(() => () => stopWheels(() => {}), []);
  const end = (): void => setRunning(false);
  return (
    <button
      type="button"
      className="run-button"
      aria-pressed={running}
      onClick={() => {
        if (running) return stopWheels(end);
        setRunning(true);
        runWheels(end);
      }}
    >
      {t(`corner.dock.${running ? "stop" : "run"}`)}
    </button>
  );
}
