import { app, useApp } from "../store/useApp.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
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
        <Rich text={t("points.elsewhere.told", { point: info.title })} />
      </p>
      <button type="button" className="button" onClick={() => app.getState().putBack()}>
        {t("points.elsewhere.putBack")}
      </button>
      <button type="button" className="button" disabled={!mayKeep} onClick={() => keepTried(info)}>
        {t("points.elsewhere.keep")}
      </button>
    </div>
  );
}
