import { notesOf, type TemplatePart } from "../../fabrication/templates/templates.ts";
import type { TemplateWords } from "../../fabrication/templates/words.ts";
import { t } from "../text/text.ts";
import { TemplatePreview } from "./TemplatePreview.tsx";
import { turned, useTemplates } from "./templatesStore.ts";

interface TemplateRowProps {
  readonly part: TemplatePart;
  readonly words: TemplateWords;
  readonly isTaken: boolean;
}

/** A template to take or leave: small, with its warnings in sight and the rest of what it says below. */
export function TemplateRow({ part, words, isTaken }: TemplateRowProps) {
  const [heading, ...notes] = notesOf(part, words);
  const warnings = notes.filter(({ isWarning }) => isWarning);
  const rest = notes.filter(({ isWarning }) => !isWarning);
  return (
    <li className="template-row" data-short={warnings.length > 0}>
      <label className="check-line">
        <input
          type="checkbox"
          checked={isTaken}
          onChange={() => useTemplates.setState(({ leftOut }) => ({ leftOut: turned(leftOut, part.id) }))}
        />
        <span>{heading!.text}</span>
      </label>
      <TemplatePreview part={part} label={t("templates.outline", { name: part.id })} />
      <div>
        {warnings.map(({ text }) => (
          <p key={text} className="template-warning">
            {text}
          </p>
        ))}
        {rest.length > 0 && (
          <details className="loads-how">
            <summary aria-label={`${t("templates.tellMore")}: ${part.id}`}>{t("templates.tellMore")}</summary>
            <ul className="fine">
              {rest.map(({ text }) => (
                <li key={text}>{text}</li>
              ))}
            </ul>
          </details>
        )}
      </div>
    </li>
  );
}
