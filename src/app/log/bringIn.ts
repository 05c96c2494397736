import { readLog } from "../../buildlog/logfile.ts";
import { InputError } from "../../scene/error.ts";
import { t } from "../text/text.ts";
import { log } from "./cards.ts";

/** A log holds pictures, some megabytes a card. */
export const LARGEST_LOG_BYTES = 500_000_000;

/**
 * Cards of a saved log join those that are here; a card that is here already is replaced by the file's.
 * @throws InputError
 */
export async function bringInText(text: string, fileName: string): Promise<void> {
  await log.getState().keep(readLog(text, fileName).cards);
}

/** The same from a file; what is wrong is told in the log. */
export async function bringInFile(file: File): Promise<void> {
  try {
    if (file.size > LARGEST_LOG_BYTES) {
      throw new InputError("too-large", { file: file.name }, t("log.tooLarge.wrong"), t("log.tooLarge.wanted"));
    }
    await bringInText(await file.text(), file.name);
  } catch (error) {
    log.getState().setTrouble(error instanceof Error ? error.message : String(error));
  }
}
