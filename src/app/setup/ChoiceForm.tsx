import { type ReactNode, useState } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import type { ChoiceQuestion } from "../../scene/setup/question.ts";
import { standingOf } from "../../scene/setup/setup.ts";
import { troubleText } from "../parts/partDraft.ts";
import { keepAnswer } from "./answering.ts";
import { askText, optionText } from "./questionText.ts";

interface ChoiceFormProps {
  readonly question: ChoiceQuestion;
  readonly document: SceneDocument;
  readonly isReadOnly: boolean;
  readonly picture: ReactNode;
  readonly foot: ReactNode;
  readonly below: ReactNode;
}

/** A question with a few answers: pressing one keeps it and goes on. */
export function ChoiceForm({ question, document, isReadOnly, picture, foot, below }: ChoiceFormProps) {
  const [refused, setRefused] = useState<string | null>(null);
  const chosen = standingOf(document, question) === null ? null : question.read(document);
  return (
    <div className="setup-form">
      <div className="setup-scroll">
        <div>{picture}</div>
        <div className="setup-fields">
          <fieldset className="setup-options" aria-label={askText(question)}>
            {question.options(document).map((value) => (
              <button
                key={value}
                type="button"
                className="button"
                aria-pressed={value === chosen}
                disabled={isReadOnly}
                onClick={() => {
                  const error = keepAnswer(question, value);
                  setRefused(error && troubleText(error));
                }}
              >
                {optionText(value)}
              </button>
            ))}
          </fieldset>
          {below}
        </div>
      </div>
      {refused && (
        <p className="point-error setup-fault" role="alert">
          {refused}
        </p>
      )}
      <div className="setup-foot">{foot}</div>
    </div>
  );
}
