import { LARGEST_LOG_BYTES } from "../../buildlog/anyLog.ts";
import { InputError } from "../../scene/error.ts";
import { readLogFile } from "../../work/logFileClient.ts";
import { t } from "../text/text.ts";
import { log } from "./cards.ts";

/**
 * Cards and decisions of a saved log join those that are here; a card that is here already is replaced by the file's.
 * Rejects with InputError.
 */
export async function bringIn(file: File): Promise<void> {
  if (file.size > LARGEST_LOG_BYTES) {
    throw new InputError("too-large", { file: file.name }, t("log.tooLarge.wrong"), t("log.tooLarge.wanted"));
  }
  const { cards, decisions } = await readLogFile(new Uint8Array(await file.arrayBuffer()), file.name);
  await log.getState().keep(cards);
  await log.getState().decide(decisions);
}

/** The same; what is wrong is told in the log. */
export async function bringInFile(file: File): Promise<void> {
  try {
    await bringIn(file);
  } catch (error) {
    log.getState().setTrouble(error instanceof Error ? error.message : String(error));
  }
}
