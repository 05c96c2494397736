import { openSceneFile } from "../files/sceneFiles.ts";
import { showBegin } from "../setup/setupStore.ts";
import { closeDialog } from "./dialogs.ts";
import { openSample, SAMPLES } from "./samples.ts";
import { useSampleTitles } from "./useSampleTitles.ts";

/** What a new project can begin with. */
export function NewProject() {
  const titles = useSampleTitles();
  return (
    <section className="project-new" aria-labelledby="project-new">
      <h3 id="project-new">Begin a new one with</h3>
      <div>
        <button
          type="button"
          className="button go"
          onClick={() => {
            closeDialog();
            showBegin();
          }}
        >
          A corner of my own…
        </button>
        <button
          type="button"
          className="button"
          onClick={() => {
            closeDialog();
            void openSceneFile();
          }}
        >
          A scene file…
        </button>
        {SAMPLES.map((sample, i) => (
          <button
            key={sample.fileName}
            type="button"
            className="button"
            onClick={() => {
              closeDialog();
              void openSample(sample);
            }}
          >
            {titles[i]}
          </button>
        ))}
      </div>
    </section>
  );
}
