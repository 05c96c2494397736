import { openSceneFile } from "../files/sceneFiles.ts";
import { openSample, SAMPLES } from "../projects/samples.ts";
import { showBegin } from "../setup/setupStore.ts";
import { useApp } from "../store/useApp.ts";

/** What there is to do before a scene is open. */
export function NoScene({ loading }: { loading: boolean }) {
  const error = useApp((state) => state.error);
  const sample = SAMPLES[0];
  if (loading) return <main className="no-scene" aria-busy="true" />;
  return (
    <main className="no-scene">
      <h1>Open a scene, or start from the sample corner</h1>
      <p className="quiet">A scene is one file: hard points, parts, travel and the gaps you want.</p>
      {error && <p className="trouble-line">{error.message}</p>}
      <div className="no-scene-buttons">
        <button type="button" className="button" onClick={showBegin}>
          Begin a corner of my own
        </button>
        <button type="button" className="button" onClick={() => void openSceneFile()}>
          Open a scene
        </button>
        {sample && (
          <button type="button" className="button go" onClick={() => void openSample(sample)}>
            Start from the sample corner
          </button>
        )}
      </div>
    </main>
  );
}
