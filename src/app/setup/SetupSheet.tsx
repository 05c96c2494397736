import { useEffect, useMemo } from "react";
import type { Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import type { Question } from "../../scene/setup/question.ts";
import { askedQuestions, firstOpen, standingOf } from "../../scene/setup/setup.ts";
import { pointInfos } from "../points/pointInfo.ts";
import { usePointsLook } from "../points/pointsStore.ts";
import { TapeDialog } from "../points/tape/TapeDialog.tsx";
import { datumOf } from "../points/usePointMove.ts";
import { keptSceneOf } from "../store/tried.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { AnswerList } from "./AnswerList.tsx";
import { putAway, skip } from "./answering.ts";
import { ChoiceForm } from "./ChoiceForm.tsx";
import { answerWords, type DraftSetting } from "./draft.ts";
import { QuestionPicture } from "./pictures/QuestionPicture.tsx";
import { QuestionForm } from "./QuestionForm.tsx";
import { askText, howText } from "./questionText.ts";
import { SetupStanding } from "./SetupStanding.tsx";
import { goTo, shownQuestion, useSetup } from "./setupStore.ts";
import "../points/points.css";
import "../points/point.css";
import "../parts/parts.css";
import "../corner/ledger.css";
import "./setup.css";

/** The guided set-up beside the view: one question at a time, or all answers in a list. */
export function SetupSheet() {
  const document = useApp((state) => state.document);
  const unit = useApp((state) => state.unit);
  const scene = useApp((state) => state.scene);
  const datumId = usePointsLook((look) => look.datumId);
  const questionId = useSetup((look) => look.questionId);
  const list = useSetup((look) => look.list);
  const datum = datumOf(scene, datumId);
  const setting = useMemo<DraftSetting | null>(() => document && { document, datum, unit }, [document, datum, unit]);
  if (!document?.setup || !setting) return null;
  const question = shownQuestion(document, questionId);
  return (
    <section
      className="points-sheet setup-sheet"
      aria-label={t("setup.sheet")}
      data-question={list ? undefined : (question?.id ?? "")}
    >
      <SetupHead document={document} question={question} list={list} />
      {list ? (
        <div className="points-scroll">
          <SetupStanding document={document} />
          <AnswerList document={document} setting={setting} />
        </div>
      ) : question ? (
        <OneQuestion key={question.id} question={question} document={document} setting={setting} />
      ) : (
        <Finished document={document} setting={setting} />
      )}
      <TapeDialog />
    </section>
  );
}

interface HeadProps {
  readonly document: SceneDocument;
  readonly question: Question | null;
  readonly list: boolean;
}

function SetupHead({ document, question, list }: HeadProps) {
  const asked = askedQuestions(document);
  const known = asked.filter((one) => standingOf(document, one) !== null).length;
  const at = question ? asked.indexOf(question) + 1 : asked.length;
  return (
    <header className="setup-head">
      <div>
        <small className="quiet">
          {question && !list
            ? t("setup.head", { section: t(`setup.sections.${question.section}`), at, of: asked.length })
            : t("setup.sheet")}
        </small>
        <button
          type="button"
          className="button plain"
          aria-pressed={list}
          onClick={() => useSetup.setState({ list: !list })}
        >
          {list ? t("setup.one") : t("setup.all")}
        </button>
      </div>
      <progress value={known} max={asked.length} aria-label={t("setup.count", { at: known, of: asked.length })} />
    </header>
  );
}

interface OneProps {
  readonly question: Question;
  readonly document: SceneDocument;
  readonly setting: DraftSetting;
}

function OneQuestion({ question, document, setting }: OneProps) {
  const isReadOnly = useApp((state) => state.standing !== "mine");
  const asked = askedQuestions(document);
  const at = asked.indexOf(question);
  const standing = standingOf(document, question);
  const open = firstOpen(document);
  useHeldPart(question, document);
  const scene = keptSceneOf(document);
  const words = (
    <>
      <h2>{askText(question)}</h2>
      <p className="quiet setup-how">{howText(question)}</p>
      {standing !== null && (
        <p className="standing" data-standing={standing}>
          {t(`setup.standings.${standing}`)}
        </p>
      )}
      {isReadOnly && <p className="trouble-line">{t("setup.readOnly")}</p>}
    </>
  );
  const picture = (place: Vec3 | null) => (
    <>
      {words}
      <QuestionPicture question={question} scene={scene} datum={setting.datum} at={place} />
    </>
  );
  const usual =
    standing === "assumed" ? (question.read(document) ?? question.usual(document)) : question.usual(document);
  const pass = () => (standing === "assumed" ? goTo(asked[at + 1]?.id ?? null) : void skip(question));
  const foot = (
    <>
      <button type="button" className="button" disabled={at <= 0} onClick={() => goTo(asked[at - 1]?.id ?? null)}>
        {t("setup.back")}
      </button>
      <button type="button" className="button setup-skip" disabled={isReadOnly} onClick={pass}>
        {t(`setup.skip.${standing ?? "open"}`, { value: answerWords(question, usual, setting) })}
      </button>
    </>
  );
  const below = (
    <div className="setup-below">
      {open && open.id !== question.id && standing !== null && (
        <button type="button" className="button plain" onClick={() => goTo(open.id)}>
          {t("setup.toOpen")}
        </button>
      )}
      <SetupStanding document={document} />
    </div>
  );
  return (
    <>
      {question.kind === "choice" ? (
        <ChoiceForm
          question={question}
          document={document}
          isReadOnly={isReadOnly}
          picture={picture(null)}
          below={below}
          foot={
            standing === "measured" ? (
              <>
                {foot}
                <button type="button" className="button go" onClick={() => goTo(asked[at + 1]?.id ?? null)}>
                  {t("setup.next")}
                </button>
              </>
            ) : (
              foot
            )
          }
        />
      ) : (
        <QuestionForm
          question={question}
          document={document}
          setting={setting}
          isReadOnly={isReadOnly}
          nextId={asked[at + 1]?.id ?? null}
          picture={picture}
          below={below}
          foot={foot}
        />
      )}
    </>
  );
}

/** The part that a question is about is outlined in the view, once it is there. */
function useHeldPart(question: Question, document: SceneDocument): void {
  const stem = question.id.slice(0, question.id.indexOf(".")) || question.id;
  const point = question.kind === "place" ? question.point : null;
  const member = pointInfos(document).find((info) => info.name === point)?.memberId ?? null;
  const isBody = document.bodies.some(({ id }) => id === stem) || document.members.some(({ id }) => id === stem);
  const part = member ?? (isBody ? stem : (UNIT_BODIES[stem] ?? null));
  useEffect(() => {
    app.getState().holdPoint(null);
    app.getState().hold(part);
  }, [part]);
}

const UNIT_BODIES: Readonly<Record<string, string>> = {
  damper: "damper-lower",
  spring: "damper-lower",
  bar: "bar",
  shaft: "driveshaft",
  wheel: "tyre",
};

function Finished({ document, setting }: { document: SceneDocument; setting: DraftSetting }) {
  const assumed = askedQuestions(document).filter((question) => standingOf(document, question) === "assumed");
  return (
    <div className="points-scroll setup-done">
      <h2>{t("setup.lastTitle")}</h2>
      <p className="quiet">{t("setup.lastLead")}</p>
      <SetupStanding document={document} />
      <button type="button" className="button go" onClick={putAway}>
        {t("setup.putAway")}
      </button>
      <h3>{assumed.length === 0 ? t("setup.allMeasured") : t("setup.stillAssumed")}</h3>
      <AnswerList document={document} setting={setting} questions={assumed} />
    </div>
  );
}
