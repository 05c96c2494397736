import { useRef } from "react";
import type { Card } from "../../buildlog/entry.ts";
import { readLog, writeLog } from "../../buildlog/logfile.ts";
import { InputError } from "../../scene/error.ts";
import { usePrinting } from "../card/printing.ts";
import { fileNameOf, LOG_FILE, saveFile } from "../files/saveFile.ts";
import { useApp } from "../store/useApp.ts";
import { log } from "./cards.ts";

interface LogButtonsProps {
  readonly cards: readonly Card[];
  readonly pair: readonly [Card, Card] | null;
}

/** A log holds pictures, some megabytes a card. */
export const LARGEST_LOG_BYTES = 500_000_000;

/** What can be done with the whole log. */
export function LogButtons({ cards, pair }: LogButtonsProps) {
  const unit = useApp((state) => state.unit);
  const chooser = useRef<HTMLInputElement>(null);
  return (
    <div className="log-buttons">
      {pair && (
        <button type="button" className="button" onClick={() => usePrinting.getState().print({ cards: pair, unit })}>
          Print both cards
        </button>
      )}
      {cards.length > 0 && (
        <button type="button" className="button" onClick={() => void saveLog(cards)}>
          Save the log as one file
        </button>
      )}
      <button type="button" className="button" onClick={() => chooser.current?.click()}>
        Bring in a saved log
      </button>
      <input
        ref={chooser}
        type="file"
        accept=".json,application/json"
        className="unseen"
        tabIndex={-1}
        aria-label="Saved log"
        onChange={(event) => {
          const [file] = event.target.files ?? [];
          event.target.value = "";
          if (file) void bringIn(file);
        }}
      />
    </div>
  );
}

async function saveLog(cards: readonly Card[]): Promise<void> {
  const name = fileNameOf(`${cards[0]?.sceneTitle ?? ""} build log`, ".json");
  try {
    await saveFile(new Blob([writeLog(cards)], { type: "application/json" }), name, LOG_FILE);
  } catch (error) {
    log.getState().setTrouble(`The log was not saved: ${error instanceof Error ? error.message : String(error)}`);
  }
}

/** Cards of the file join those that are here; a card that is here already is replaced by the file's. */
export async function bringIn(file: File): Promise<void> {
  try {
    if (file.size > LARGEST_LOG_BYTES) {
      throw new InputError("too-large", { file: file.name }, "is larger than 500 MB", "a build log as it was saved");
    }
    await log.getState().keep(readLog(await file.text(), file.name));
  } catch (error) {
    log.getState().setTrouble(error instanceof Error ? error.message : String(error));
  }
}
