import { Dialog } from "@base-ui/react/dialog";
import { type ComponentType, useId } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import { ExchangeForm } from "../exchange/ExchangeForm.tsx";
import { PictureForm } from "../picture/PictureForm.tsx";
import { useApp } from "../store/useApp.ts";
import { TemplatesForm } from "../templates/TemplatesForm.tsx";
import { t } from "../text/text.ts";
import { CutListForm } from "./CutListForm.tsx";
import { HardPointsForm } from "./HardPointsForm.tsx";
import { JigSheetForm } from "./JigSheetForm.tsx";
import { closePaper, PAPER_KINDS, type PaperKind, usePaper } from "./paperStore.ts";
import "../parts/parts.css";
import "../points/point.css";
import "./paper.css";

export interface PaperFormProps {
  /** The kept scene: a move that is only tried is not printed. */
  readonly document: SceneDocument;
}

const FORMS: Readonly<Record<PaperKind, ComponentType<PaperFormProps>>> = {
  picture: PictureForm,
  exchange: ExchangeForm,
  hardPoints: HardPointsForm,
  jigSheet: JigSheetForm,
  cutList: CutListForm,
  templates: TemplatesForm,
};

/** All sheets that can be printed of the scene and all files that it goes out to or comes in from. */
export function PaperDialog() {
  const open = usePaper((look) => look.open);
  return (
    <Dialog.Root open={open} onOpenChange={(wanted) => !wanted && closePaper()}>
      <Dialog.Portal>
        <Dialog.Backdrop className="veil" />
        <Dialog.Popup className="dialog paper-dialog">
          <div className="paper-head">
            <Dialog.Title>{t("paper.name")}</Dialog.Title>
            <Dialog.Close className="button">{t("paper.close")}</Dialog.Close>
          </div>
          <PaperBody />
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

function PaperBody() {
  const kind = usePaper((look) => look.kind);
  const document = useApp((state) => state.document);
  const trying = useApp((state) => state.tried !== null || state.triedEdit !== null);
  const heading = useId();
  const Form = FORMS[kind];
  return (
    <div className="paper-body">
      <nav className="paper-kinds" aria-label={t("paper.kind")}>
        {PAPER_KINDS.map((value) => (
          <button
            key={value}
            type="button"
            aria-current={value === kind}
            onClick={() => usePaper.setState({ kind: value })}
          >
            {t(`paper.kinds.${value}`)}
          </button>
        ))}
      </nav>
      <section className="paper-form" aria-labelledby={heading}>
        <h3 id={heading}>{t(`paper.kinds.${kind}`)}</h3>
        <p className="quiet">{t(`paper.about.${kind}`)}</p>
        {trying && <p className="stale-line">{t("paper.trying")}</p>}
        {document && <Form key={kind} document={document} />}
      </section>
    </div>
  );
}
