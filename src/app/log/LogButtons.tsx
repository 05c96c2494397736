import { useRef } from "react";
import type { Card } from "../../buildlog/entry.ts";
import type { LogFileKind } from "../../work/logFile.worker.ts";
import { writeLogFile, writeLogPdf } from "../../work/logFileClient.ts";
import { PaperChoice } from "../card/PaperChoice.tsx";
import { usePrinting } from "../card/printing.ts";
import { type FileKind, fileNameOf, LOG_FILE, LOG_PAGE_FILE, LOG_ZIP_FILE } from "../files/saveFile.ts";
import { PDF_FILE } from "../paper/fileKinds.ts";
import { MakingLine } from "../paper/MakingLine.tsx";
import { useMaking } from "../paper/making.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { bringInFile } from "./bringIn.ts";
import { log, useLog } from "./cards.ts";

const FILES: Readonly<Record<LogFileKind, FileKind>> = { json: LOG_FILE, html: LOG_PAGE_FILE, zip: LOG_ZIP_FILE };
const KINDS = ["json", "html", "zip"] as const;

/** What can be done with the whole log. */
export function LogButtons({ pair }: { pair: readonly [Card, Card] | null }) {
  const unit = useApp((state) => state.unit);
  const isEmpty = useLog((state) => state.rows.length === 0);
  const chooser = useRef<HTMLInputElement>(null);
  return (
    <div className="log-buttons">
      {pair && (
        <button type="button" className="button" onClick={() => usePrinting.getState().print({ cards: pair, unit })}>
          {t("log.printBoth")}
        </button>
      )}
      {!isEmpty && <SaveButtons />}
      <button type="button" className="button" onClick={() => chooser.current?.click()}>
        {t("log.bringIn")}
      </button>
      <input
        ref={chooser}
        type="file"
        accept=".json,.zip,.html,application/json,application/zip,text/html"
        className="unseen"
        tabIndex={-1}
        aria-label={t("log.savedLog")}
        onChange={(event) => {
          const [file] = event.target.files ?? [];
          event.target.value = "";
          if (file) void bringInFile(file);
        }}
      />
    </div>
  );
}

/** The whole log as a file, and on paper. */
function SaveButtons() {
  const making = useMaking();
  const save = (file: FileKind, write: () => Promise<Uint8Array>) =>
    making.save(async () => {
      const scene = log.getState().rows[0]?.digest.sceneTitle ?? "";
      return { content: await write(), name: fileNameOf(t("log.fileName", { scene }), file.ending), kind: file };
    });
  const told = () => ({ unit: app.getState().unit });
  return (
    <>
      <fieldset className="log-save">
        <legend>{t("log.saveAs.legend")}</legend>
        {KINDS.map((kind) => (
          <button
            key={kind}
            type="button"
            className="button"
            aria-label={t(`log.saveAs.${kind}`)}
            disabled={making.busy}
            onClick={() => save(FILES[kind], async () => writeLogFile(await log.getState().whole(), kind, told()))}
          >
            {t(`log.saveAs.short.${kind}`)}
          </button>
        ))}
        <button
          type="button"
          className="button"
          aria-label={t("log.saveAs.pdf")}
          disabled={making.busy}
          onClick={() =>
            save(PDF_FILE, async () => {
              // comes with the letters, which only paper needs
              const { sheetSetting } = await import("../paper/sheetFacts.ts");
              const { paper, fonts } = await sheetSetting();
              return writeLogPdf(await log.getState().whole(), { ...told(), paper, fonts });
            })
          }
        >
          {t("log.saveAs.short.pdf")}
        </button>
      </fieldset>
      <PaperChoice />
      <MakingLine making={making} />
    </>
  );
}
