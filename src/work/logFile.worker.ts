import { expose, transfer } from "comlink";
import { readAnyLog } from "../buildlog/anyLog.ts";
import { type BuildLog, writeLog } from "../buildlog/logfile.ts";
import { writeHtml } from "../buildlog/report/html.ts";
import type { ReportOptions } from "../buildlog/report/logReport.ts";
import { logPdf, type PaperOptions } from "../buildlog/report/pdf.ts";
import { zipLog } from "../buildlog/report/zip.ts";
import { holdLife } from "./life.ts";
import { type Outcome, outcomeOf } from "./outcome.ts";

export type LogFileKind = "json" | "html" | "zip";

const text = (content: string) => new TextEncoder().encode(content);

/** Makes files of a build log and reads them: a thin shell, one worker to a file. */
const shell = {
  /** `life`: name of the lock that is held as long as the worker lives. */
  begin: (life: string | null): Promise<void> => holdLife(life),
  write: (log: BuildLog, kind: LogFileKind, options: ReportOptions): Promise<Outcome<Uint8Array>> =>
    handed(() => {
      if (kind === "zip") return zipLog(log, options);
      return text(kind === "html" ? writeHtml(log, options) : writeLog(log));
    }),
  pdf: (log: BuildLog, options: PaperOptions): Promise<Outcome<Uint8Array>> => handed(() => logPdf(log, options)),
  read: (bytes: Uint8Array, file: string): Promise<Outcome<BuildLog>> => outcomeOf(() => readAnyLog(bytes, file)),
};

async function handed(make: () => Uint8Array | Promise<Uint8Array>): Promise<Outcome<Uint8Array>> {
  const outcome = await outcomeOf(make);
  return outcome.kind === "done" ? transfer(outcome, [outcome.value.buffer as ArrayBuffer]) : outcome;
}

export type LogFileShell = typeof shell;

expose(shell);
