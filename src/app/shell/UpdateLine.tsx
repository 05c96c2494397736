import { useApp } from "../store/useApp.ts";
import { takeUpdate, useUpdate } from "./update.ts";

/** Says that a new version lies ready; nothing is loaded before the builder asks for it. */
export function UpdateLine() {
  const { ready, takenElsewhere } = useUpdate();
  const trying = useApp((state) => state.tried !== null || state.triedEdit !== null);
  if (!ready && !takenElsewhere) return null;
  return (
    <div className="file-line" role="status">
      <p>
        {takenElsewhere
          ? "Another tab has taken a new version of Elbowroom."
          : "A new version of Elbowroom lies ready."}{" "}
        {trying ? "Keep what is tried or put it back first." : "Your project stays as it is."}
      </p>
      <button type="button" className="button" disabled={trying} onClick={() => void takeUpdate()}>
        Load it now
      </button>
      <button
        type="button"
        className="button"
        onClick={() => useUpdate.setState({ ready: false, takenElsewhere: false })}
      >
        Later
      </button>
    </div>
  );
}
