import { wrap } from "comlink";
import type { BuildLog } from "../buildlog/logfile.ts";
import type { ReportOptions } from "../buildlog/report/logReport.ts";
import type { PaperOptions } from "../buildlog/report/pdf.ts";
import { endWorker } from "./endWorker.ts";
import { nameOfLife, whenLifeEnds } from "./life.ts";
import type { LogFileKind, LogFileShell } from "./logFile.worker.ts";
import { type Outcome, unwrap, WorkError } from "./outcome.ts";

/** The log as a file, made in a worker that ends with it. Rejects with InputError for what could not be read again. */
export function writeLogFile(log: BuildLog, kind: LogFileKind, options: ReportOptions): Promise<Uint8Array> {
  return inWorker((shell) => shell.write(log, kind, options));
}

/** The log as PDF, likewise. */
export function writeLogPdf(log: BuildLog, options: PaperOptions): Promise<Uint8Array> {
  return inWorker((shell) => shell.pdf(log, options));
}

/** A saved log of any kind. Rejects with InputError naming the file, the card and the field. */
export function readLogFile(bytes: Uint8Array, file: string): Promise<BuildLog> {
  return inWorker((shell) => shell.read(bytes, file));
}

async function inWorker<T>(ask: (shell: LogFileShell) => Promise<Outcome<T>>): Promise<T> {
  const worker = new Worker(new URL("./logFile.worker.ts", import.meta.url), { type: "module" });
  const shell = wrap<LogFileShell>(worker) as unknown as LogFileShell;
  const life = nameOfLife();
  const failed = new Promise<never>((_, reject) => {
    worker.onerror = (event) => {
      event.preventDefault();
      reject(new WorkError(event.message || "the worker stopped"));
    };
    void Promise.resolve(shell.begin(life)).then(() =>
      whenLifeEnds(life, () => reject(new WorkError("the worker stopped"))),
    );
  });
  failed.catch(() => {});
  try {
    return unwrap(await Promise.race([ask(shell), failed]));
  } finally {
    endWorker(worker, shell);
  }
}
