import type { SceneDocument } from "../../scene/document.ts";
import { type Question, SECTIONS } from "../../scene/setup/question.ts";
import { askedQuestions, standingOf } from "../../scene/setup/setup.ts";
import { t } from "../text/text.ts";
import { capital } from "../words/names.ts";
import { answerWords, type DraftSetting } from "./draft.ts";
import { answerName } from "./questionText.ts";
import { goTo } from "./setupStore.ts";

interface AnswerListProps {
  readonly document: SceneDocument;
  readonly setting: DraftSetting;
  readonly questions?: readonly Question[];
}

/** Every question with its answer and how it is known; pressing one goes back to it. */
export function AnswerList({ document, setting, questions = askedQuestions(document) }: AnswerListProps) {
  return SECTIONS.map((section) => {
    const own = questions.filter((question) => question.section === section);
    if (own.length === 0) return null;
    return (
      <section key={section} className="points-group" aria-label={t(`setup.sections.${section}`)}>
        <h3>{t(`setup.sections.${section}`)}</h3>
        {own.map((question) => (
          <AnswerRow key={question.id} question={question} document={document} setting={setting} />
        ))}
      </section>
    );
  });
}

function AnswerRow({ question, document, setting }: AnswerListProps & { readonly question: Question }) {
  const standing = standingOf(document, question) ?? "open";
  const value = standing === "open" ? null : question.read(document);
  return (
    <button type="button" className="point-row" onClick={() => goTo(question.id)}>
      <b>{capital(answerName(question))}</b>
      <span className="tabular">{value === null ? "" : answerWords(question, value, setting)}</span>
      <small className="standing" data-standing={standing}>
        {t(`setup.standings.${standing}`)}
      </small>
    </button>
  );
}
