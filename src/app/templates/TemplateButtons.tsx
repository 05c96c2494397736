import { useState } from "react";
import type { MarkedPage } from "../../fabrication/paper/marks.ts";
import { fileDrawing, type TemplatePart } from "../../fabrication/templates/templates.ts";
import type { TemplateWords } from "../../fabrication/templates/words.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { usePrinting } from "../card/printing.ts";
import { type FileKind, fileNameOf } from "../files/saveFile.ts";
import { PDF_FILE } from "../paper/fileKinds.ts";
import { MakingLine } from "../paper/MakingLine.tsx";
import { useMaking } from "../paper/making.ts";
import { PagesShown } from "../paper/PagesShown.tsx";
import { type OnPages, sheetFacts, sheetSetting } from "../paper/sheetFacts.ts";
import { t } from "../text/text.ts";
import { chosenCorrection, useTemplates } from "./templatesStore.ts";

const DXF_FILE: FileKind = { description: t("templates.dxfFile"), mime: "image/vnd.dxf", ending: ".dxf" };
const SVG_FILE: FileKind = { description: t("templates.svgFile"), mime: "image/svg+xml", ending: ".svg" };

interface TemplateButtonsProps {
  readonly document: SceneDocument;
  readonly parts: readonly TemplatePart[];
  readonly words: TemplateWords;
}

/** Shows the templates that are taken on their pages and saves them; the writers are fetched when they are needed. */
export function TemplateButtons({ document, parts, words }: TemplateButtonsProps) {
  const look = useTemplates();
  const making = useMaking();
  const correction = chosenCorrection(look);
  const isIdle = !making.busy && parts.length > 0;
  const save = (kind: FileKind, make: () => Promise<string | Uint8Array>): void =>
    making.save(async () => ({
      content: await make(),
      name: fileNameOf(`${document.title} ${t("templates.title")}`, kind.ending),
      kind,
    }));
  const files = { withoutNotes: look.bare };
  const dxf = async () => {
    const { dxfOf } = await import("../../fabrication/templates/writeDxf.ts");
    return dxfOf(fileDrawing(parts, words), files);
  };
  const svg = async () => {
    const { svgOf } = await import("../../fabrication/templates/writeSvg.ts");
    return svgOf(fileDrawing(parts, words), files);
  };
  const pdf = async (onPages?: OnPages) => {
    const { templatesPdf } = await import("../../fabrication/templates/templatesPdf.ts");
    const facts = {
      ...sheetFacts(document, t("templates.title"), {
        units: t("templates.units"),
        cautions: [t("paper.cautions.shape"), t("templates.measureBars")],
      }),
      datum: t("templates.datum"),
    };
    return templatesPdf(parts, facts, await sheetSetting(onPages), correction!, words);
  };
  const paper = usePrinting((state) => state.paper);
  // pages are shown until anything that they hang on changes
  const ids = parts.map(({ id }) => id);
  const asked = JSON.stringify([ids, look.folded, look.folding, correction, paper]);
  const [shown, setShown] = useState<{ of: string; from: SceneDocument; pages: readonly MarkedPage[] } | null>(null);
  const lookAtIt = (): void =>
    making.run(async () => {
      await pdf((pages) => setShown({ of: asked, from: document, pages }));
      return null;
    });
  return (
    <>
      <label className="check-line">
        <input
          type="checkbox"
          checked={look.bare}
          onChange={(event) => useTemplates.setState({ bare: event.target.checked })}
        />
        <span>{t("templates.bare")}</span>
      </label>
      {shown?.of === asked && shown.from === document && (
        <div className="template-pages" ref={intoView}>
          <PagesShown title={t("templates.title")} pages={shown.pages} />
        </div>
      )}
      <div className="template-out">
        <div className="dialog-buttons">
          <button type="button" className="button" disabled={!isIdle || correction === null} onClick={lookAtIt}>
            {t("paper.look")}
          </button>
          <button type="button" className="button" disabled={!isIdle} onClick={() => save(SVG_FILE, svg)}>
            {t("templates.saveSvg")}
          </button>
          <button type="button" className="button" disabled={!isIdle} onClick={() => save(DXF_FILE, dxf)}>
            {t("templates.saveDxf")}
          </button>
          <button
            type="button"
            className="button go"
            disabled={!isIdle || correction === null}
            onClick={() => save(PDF_FILE, pdf)}
          >
            {t("templates.savePdf")}
          </button>
        </div>
        <MakingLine making={making} />
      </div>
    </>
  );
}

/** They come below a long list. */
function intoView(pages: HTMLElement | null): void {
  pages?.scrollIntoView({ block: "start" });
}
