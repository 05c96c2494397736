import { Choices } from "../shell/Choices.tsx";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { poseName } from "../words/names.ts";
import { useGhosts } from "./ghostsStore.ts";

const NONE = "";

/** Which other states are drawn as outlines. */
export function GhostPanel() {
  const { bump, droop, pose } = useGhosts();
  const scene = useApp((state) => state.scene);
  const poses = scene?.powertrain.poses ?? [];
  return (
    <>
      <span className="quiet">{t("ghosts.ends")}</span>
      <fieldset className="choices" aria-label={t("ghosts.ends")}>
        <button type="button" aria-pressed={bump} onClick={() => useGhosts.setState({ bump: !bump })}>
          {t("ghosts.bump")}
        </button>
        <button type="button" aria-pressed={droop} onClick={() => useGhosts.setState({ droop: !droop })}>
          {t("ghosts.droop")}
        </button>
      </fieldset>
      {poses.length > 1 && (
        <>
          <span className="quiet">{t("ghosts.pose")}</span>
          <Choices
            label={t("ghosts.pose")}
            options={[
              { value: NONE, name: t("ghosts.none") },
              ...poses.map(({ id }) => ({ value: id, name: poseName(id) })),
            ]}
            value={pose ?? NONE}
            onChoose={(id) => useGhosts.setState({ pose: id === NONE ? null : id })}
          />
        </>
      )}
      <p className="tool-note">{t("ghosts.note")}</p>
    </>
  );
}
