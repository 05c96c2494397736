import { useState } from "react";
import type { MarkedPage } from "../../fabrication/paper/marks.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { type FileKind, fileNameOf } from "../files/saveFile.ts";
import { t } from "../text/text.ts";
import { CSV_FILE, PDF_FILE } from "./fileKinds.ts";
import { MakingLine } from "./MakingLine.tsx";
import { useMaking } from "./making.ts";
import { PagesShown } from "./PagesShown.tsx";
import type { OnPages } from "./sheetFacts.ts";

interface SheetButtonsProps {
  readonly document: SceneDocument;
  /** The sheet's own name: goes into the file's. */
  readonly title: string;
  csv(): string | Promise<string>;
  pdf(onPages?: OnPages): Promise<Uint8Array>;
}

/** Shows a sheet before it is printed, saves it as a table and as PDF, and tells what came of it. */
export function SheetButtons({ document, title, csv, pdf }: SheetButtonsProps) {
  const making = useMaking();
  const save = (kind: FileKind, make: () => string | Promise<string | Uint8Array>): void =>
    making.save(async () => ({
      content: await make(),
      name: fileNameOf(`${document.title} ${title}`, kind.ending),
      kind,
    }));
  const [shown, setShown] = useState<{ readonly of: SceneDocument; readonly pages: readonly MarkedPage[] } | null>(
    null,
  );
  const look = (): void =>
    making.run(async () => {
      await pdf((pages) => setShown({ of: document, pages }));
      return null;
    });
  return (
    <>
      <div className="dialog-buttons">
        <button type="button" className="button" disabled={making.busy} onClick={look}>
          {t("paper.look")}
        </button>
        <button type="button" className="button" disabled={making.busy} onClick={() => save(CSV_FILE, csv)}>
          {t("paper.saveCsv")}
        </button>
        <button type="button" className="button go" disabled={making.busy} onClick={() => save(PDF_FILE, () => pdf())}>
          {t("paper.savePdf")}
        </button>
      </div>
      <MakingLine making={making} />
      {shown?.of === document && <PagesShown title={title} pages={shown.pages} />}
    </>
  );
}
