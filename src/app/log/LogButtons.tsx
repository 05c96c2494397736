import { useRef } from "react";
import type { Card } from "../../buildlog/entry.ts";
import { writeLog } from "../../buildlog/logfile.ts";
import { usePrinting } from "../card/printing.ts";
import { fileNameOf, LOG_FILE, saveFile } from "../files/saveFile.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { bringInFile } from "./bringIn.ts";
import { log } from "./cards.ts";

interface LogButtonsProps {
  readonly cards: readonly Card[];
  readonly pair: readonly [Card, Card] | null;
}

/** What can be done with the whole log. */
export function LogButtons({ cards, pair }: LogButtonsProps) {
  const unit = useApp((state) => state.unit);
  const chooser = useRef<HTMLInputElement>(null);
  return (
    <div className="log-buttons">
      {pair && (
        <button type="button" className="button" onClick={() => usePrinting.getState().print({ cards: pair, unit })}>
          {t("log.printBoth")}
        </button>
      )}
      {cards.length > 0 && (
        <button type="button" className="button" onClick={() => void saveLog(cards)}>
          {t("log.save")}
        </button>
      )}
      <button type="button" className="button" onClick={() => chooser.current?.click()}>
        {t("log.bringIn")}
      </button>
      <input
        ref={chooser}
        type="file"
        accept=".json,application/json"
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

async function saveLog(cards: readonly Card[]): Promise<void> {
  const name = fileNameOf(t("log.fileName", { scene: cards[0]?.sceneTitle ?? "" }), ".json");
  try {
    await saveFile(new Blob([writeLog({ cards, decisions: [] })], { type: "application/json" }), name, LOG_FILE);
  } catch (error) {
    const trouble = error instanceof Error ? error.message : String(error);
    log.getState().setTrouble(t("log.notSaved", { trouble }));
  }
}
