import { useState } from "react";
import { InputError } from "../../scene/error.ts";
import { type FileKind, saveFile } from "../files/saveFile.ts";
import { t } from "../text/text.ts";

export interface MadeFile {
  readonly content: Uint8Array | string | Blob;
  readonly name: string;
  readonly kind: FileKind;
}

export interface Making {
  readonly busy: boolean;
  /** What came of the last one, for the line below the buttons. */
  readonly told: { readonly isTrouble: boolean; readonly text: string } | null;
  /** Makes a file and lets the builder say where it goes. */
  save(make: () => Promise<MadeFile>): void;
  /** Any other work whose end is told in a sentence of its own; null tells nothing. */
  run(work: () => Promise<string | null>): void;
}

/** One file at a time is made: what it is busy with, and what came of it. */
export function useMaking(): Making {
  const [busy, setBusy] = useState(false);
  const [told, setTold] = useState<Making["told"]>(null);
  const run = (work: () => Promise<string | null>): void => {
    if (busy) return;
    setBusy(true);
    setTold(null);
    work()
      .then((text) => setTold(text === null ? null : { isTrouble: false, text }))
      .catch((error: unknown) => setTold({ isTrouble: true, text: troubleOf(error) }))
      .finally(() => setBusy(false));
  };
  return {
    busy,
    told,
    run,
    save: (make) =>
      run(async () => {
        const { content, name, kind } = await make();
        // a typed array over shared memory is no part of a blob; these never are
        const blob = content instanceof Blob ? content : new Blob([content as BlobPart], { type: kind.mime });
        const saved = await saveFile(blob, name, kind);
        return saved === null ? null : t("paper.saved", { file: saved });
      }),
  };
}

function troubleOf(error: unknown): string {
  if (error instanceof InputError) {
    const wrong = `${error.wrong.charAt(0).toUpperCase()}${error.wrong.slice(1)}.`;
    return t("words.refusal", { wrong, wanted: error.wanted });
  }
  return error instanceof Error ? error.message : String(error);
}
