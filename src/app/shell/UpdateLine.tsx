import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { takeUpdate, useUpdate } from "./update.ts";

/** Says that a new version lies ready; nothing is loaded before the builder asks for it. */
export function UpdateLine() {
  const { ready, takenElsewhere } = useUpdate();
  const trying = useApp((state) => state.tried !== null || state.triedEdit !== null);
  if (!ready && !takenElsewhere) return null;
  return (
    <div className="file-line" role="status">
      <p>{t(`shell.update.${takenElsewhere ? "elsewhere" : "ready"}.${trying ? "trying" : "free"}`)}</p>
      <button type="button" className="button" disabled={trying} onClick={() => void takeUpdate()}>
        {t("shell.update.load")}
      </button>
      <button
        type="button"
        className="button"
        onClick={() => useUpdate.setState({ ready: false, takenElsewhere: false })}
      >
        {t("shell.update.later")}
      </button>
    </div>
  );
}
