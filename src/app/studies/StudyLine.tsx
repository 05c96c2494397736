import type { SceneDocument } from "../../scene/document.ts";
import { t } from "../text/text.ts";
import { type AskedStudy, isSameQuestion } from "./askedStudy.ts";

interface StudyLineProps<Question, Result> {
  readonly study: AskedStudy<Question, Result>;
  /** What would be asked as things stand; null: nothing can be. */
  readonly question: Question | null;
  /** What the button says that asks, the first time and again. */
  readonly go: string;
  readonly again: string;
}

/** The button that asks a study, how far it is with the way to stop it, and whether what it told still holds. */
export function StudyLine<Question extends { readonly document: SceneDocument }, Result>(
  props: StudyLineProps<Question, Result>,
) {
  const { study, question, go, again } = props;
  const { running, told, trouble } = study.use();
  const isOutdated = told !== null && question !== null && !isSameQuestion(told.question, question);
  return (
    <div className="study-line">
      {running ? (
        <div className="study-progress" role="status">
          <span>
            {running.total > 0
              ? t("studies.running", { done: running.done, total: running.total })
              : t("studies.begins")}
          </span>
          <progress
            {...(running.total > 0 ? { value: running.done, max: running.total } : {})}
            aria-label={t("studies.progress")}
          />
          <button type="button" className="button" onClick={study.stop}>
            {t("studies.stop")}
          </button>
        </div>
      ) : (
        (told === null || isOutdated || trouble !== null) && (
          <button
            type="button"
            className="button go"
            disabled={question === null}
            onClick={() => question && study.ask(question)}
          >
            {told === null ? go : again}
          </button>
        )
      )}
      {!running && trouble === "stopped" && (
        <p className="fine quiet" role="status">
          {t(`studies.stopped.${told ? "before" : "nothing"}`)}
        </p>
      )}
      {!running && trouble !== null && trouble !== "stopped" && (
        <p className="trouble-line" role="alert">
          {t("words.refusal", {
            wrong: `${trouble.wrong.charAt(0).toUpperCase()}${trouble.wrong.slice(1)}.`,
            wanted: trouble.wanted,
          })}
        </p>
      )}
      {isOutdated && <p className="stale-line">{t("studies.outdated")}</p>}
    </div>
  );
}

/** Whether what a study told is not of what would be asked now. */
export function useIsOutdated<Question extends { readonly document: SceneDocument }, Result>(
  study: AskedStudy<Question, Result>,
  question: Question | null,
): boolean {
  const told = study.use((state) => state.told);
  return told !== null && (question === null || !isSameQuestion(told.question, question));
}
