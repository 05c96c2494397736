import { useMemo } from "react";
import type { Folding } from "../../fabrication/templates/fold.ts";
import { type Templates, templatesOf } from "../../fabrication/templates/templates.ts";
import { mm, type TemplateWords } from "../../fabrication/templates/words.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import type { PaperFormProps } from "../paper/PaperDialog.tsx";
import { SheetSetting } from "../paper/SheetSetting.tsx";
import { listText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { FoldingFields } from "./FoldingFields.tsx";
import { PrinterFields } from "./PrinterFields.tsx";
import { TemplateButtons } from "./TemplateButtons.tsx";
import { TemplateRow } from "./TemplateRow.tsx";
import { useTemplates } from "./templatesStore.ts";
import { templateWords } from "./templateWords.ts";
import "./templates.css";

/** Plates laid flat and tube ends to wrap: which, how they fold, for which printer, and out as PDF, DXF or SVG. */
export function TemplatesForm({ document }: PaperFormProps) {
  const { folded, folding, leftOut } = useTemplates();
  const words = useMemo(templateWords, []);
  // a part may be gone, or of another scene
  const here = useMemo(() => folded.filter((id) => document.bodies.some((body) => body.id === id)), [document, folded]);
  const { templates, trouble } = useMemo(() => lay(document, here, folding), [document, here, folding]);
  const parts = templates ? [...templates.plates, ...templates.wraps] : [];
  return (
    <>
      <SheetSetting />
      <FoldingFields parts={[...here, ...(templates?.canFold ?? [])].sort()} />
      <PrinterFields />
      {trouble && (
        <p className="trouble-line" role="alert">
          {trouble}
        </p>
      )}
      {templates && parts.length === 0 && <p>{t("templates.nothing")}</p>}
      {parts.length > 0 && (
        <>
          <div className="template-head">
            <h4>{t("templates.list")}</h4>
            <button type="button" className="button plain" onClick={() => useTemplates.setState({ leftOut: [] })}>
              {t("templates.all")}
            </button>
            <button
              type="button"
              className="button plain"
              onClick={() => useTemplates.setState({ leftOut: parts.map(({ id }) => id) })}
            >
              {t("templates.none")}
            </button>
          </div>
          <ul className="template-list" aria-label={t("templates.list")}>
            {parts.map((part) => (
              <TemplateRow key={part.id} part={part} words={words} isTaken={!leftOut.includes(part.id)} />
            ))}
          </ul>
        </>
      )}
      {templates && <Sawn templates={templates} words={words} />}
      {parts.length > 0 && (
        <TemplateButtons document={document} parts={parts.filter(({ id }) => !leftOut.includes(id))} words={words} />
      )}
    </>
  );
}

function Sawn({ templates: { square }, words }: { templates: Templates; words: TemplateWords }) {
  if (square.length === 0) return null;
  return (
    <details className="loads-how">
      <summary>{t("templates.sawn")}</summary>
      <ul className="fine">
        {square.map(({ id, tube, which, fittedTo, along_mm }) => (
          <li key={id}>
            {t("templates.sawnEnd", {
              end: words.wrapName[which](tube),
              parts: listText(fittedTo),
              along: mm(along_mm),
            })}
          </li>
        ))}
      </ul>
    </details>
  );
}

function lay(document: SceneDocument, folded: readonly string[], folding: Folding) {
  try {
    return { templates: templatesOf(document, { parts: null, folded, folding }), trouble: null };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const wrong = `${error.wrong.charAt(0).toUpperCase()}${error.wrong.slice(1)}.`;
    return { templates: null, trouble: t("words.refusal", { wrong, wanted: error.wanted }) };
  }
}
