import { type BuildLog, isLogText, readLog } from "./logfile.ts";
import { isHtmlLog, readHtmlLog } from "./report/html.ts";
import { isZip, unzipLog } from "./report/zip.ts";

/** A log holds pictures, some megabytes a card. */
export const LARGEST_LOG_BYTES = 500_000_000;

/** A saved log of any kind: JSON, zip, or the page. @throws InputError */
export function readAnyLog(bytes: Uint8Array, file: string): BuildLog {
  if (isZip(bytes)) return unzipLog(bytes, file);
  const text = new TextDecoder().decode(bytes);
  return isHtmlLog(text) ? readHtmlLog(text, file) : readLog(text, file);
}

/** Whether the start of a file (some hundred bytes of it) means to be a build log; of a page that is not known before all is there. */
export function mayBeLog(start: Uint8Array): boolean {
  const text = new TextDecoder().decode(start);
  return isZip(start) || isLogText(text) || /^\s*<!doctype html>/i.test(text);
}
