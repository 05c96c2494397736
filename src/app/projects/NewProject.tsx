import { openSceneFile } from "../files/sceneFiles.ts";
import { showBegin } from "../setup/setupStore.ts";
import { t } from "../text/text.ts";
import { closeDialog } from "./dialogs.ts";
import { openSample, SAMPLES } from "./samples.ts";
import { useSampleTitles } from "./useSampleTitles.ts";

/** What a new project can begin with. */
export function NewProject() {
  const titles = useSampleTitles();
  return (
    <section className="project-new" aria-labelledby="project-new">
      <h3 id="project-new">{t("projects.begin.title")}</h3>
      <div>
        <button
          type="button"
          className="button go"
          onClick={() => {
            closeDialog();
            showBegin();
          }}
        >
          {t("projects.begin.own")}
        </button>
        <button
          type="button"
          className="button"
          onClick={() => {
            closeDialog();
            void openSceneFile();
          }}
        >
          {t("projects.begin.file")}
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
