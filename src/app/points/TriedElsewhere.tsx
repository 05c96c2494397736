import { app, useApp } from "../store/useApp.ts";
import { pointInfos } from "./pointInfo.ts";
import { usePointsLook } from "./pointsStore.ts";
import { keepTried } from "./usePointMove.ts";

/** One move is tried at a time: another point waits until that is kept or put back. */
export function TriedElsewhere() {
  const tried = useApp((state) => state.tried);
  const document = useApp((state) => state.document);
  const hasError = useApp((state) => state.error !== null);
  const mayKeep = usePointsLook((look) => look.troubled.size === 0) && !hasError;
  const info = document && pointInfos(document).find((point) => point.name === tried?.point);
  if (!info) return null;
  return (
    <div className="tried-elsewhere" role="status">
      <p>
        <b>{info.title}</b> is moved and <em>not kept yet</em>.
      </p>
      <button type="button" className="button" onClick={() => app.getState().putBack()}>
        Put it back
      </button>
      <button type="button" className="button" disabled={!mayKeep} onClick={() => keepTried(info)}>
        Keep it
      </button>
    </div>
  );
}
