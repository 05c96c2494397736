import { Choices } from "../shell/Choices.tsx";
import { useApp } from "../store/useApp.ts";
import { poseName } from "../words/names.ts";
import { useGhosts } from "./ghostsStore.ts";
import { ghostWords } from "./ghostWords.ts";

const NONE = "";

/** Which other states are drawn as outlines. */
export function GhostPanel() {
  const { bump, droop, pose } = useGhosts();
  const scene = useApp((state) => state.scene);
  const poses = scene?.powertrain.poses ?? [];
  return (
    <>
      <span className="quiet">{ghostWords.ends}</span>
      <fieldset className="choices" aria-label={ghostWords.ends}>
        <button type="button" aria-pressed={bump} onClick={() => useGhosts.setState({ bump: !bump })}>
          {ghostWords.bump}
        </button>
        <button type="button" aria-pressed={droop} onClick={() => useGhosts.setState({ droop: !droop })}>
          {ghostWords.droop}
        </button>
      </fieldset>
      {poses.length > 1 && (
        <>
          <span className="quiet">{ghostWords.pose}</span>
          <Choices
            label={ghostWords.pose}
            options={[
              { value: NONE, name: ghostWords.none },
              ...poses.map(({ id }) => ({ value: id, name: poseName(id) })),
            ]}
            value={pose ?? NONE}
            onChoose={(id) => useGhosts.setState({ pose: id === NONE ? null : id })}
          />
        </>
      )}
      <p className="tool-note">{ghostWords.note}</p>
    </>
  );
}
