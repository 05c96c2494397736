import { t } from "../text/text.ts";

interface PickerType {
  readonly description: string;
  readonly accept: Readonly<Record<string, readonly string[]>>;
}
type SavePicker = (options: { suggestedName: string; types: readonly PickerType[] }) => Promise<FileSystemFileHandle>;

export interface FileKind {
  readonly description: string;
  readonly mime: string;
  readonly ending: string;
}

export const SCENE_FILE: FileKind = { description: t("files.kinds.scene"), mime: "application/json", ending: ".json" };
export const LOG_FILE: FileKind = { description: t("files.kinds.log"), mime: "application/json", ending: ".json" };
export const LOG_PAGE_FILE: FileKind = { description: t("files.kinds.logPage"), mime: "text/html", ending: ".html" };
export const LOG_ZIP_FILE: FileKind = { description: t("files.kinds.logZip"), mime: "application/zip", ending: ".zip" };
export const PICTURE_FILE: FileKind = { description: t("files.kinds.picture"), mime: "image/png", ending: ".png" };

/** What a file was saved as, and the means to write to it again where the browser gives one. */
export interface SavedFile {
  readonly name: string;
  readonly handle: FileSystemFileHandle | null;
}

/**
 * Saves through the browser's file picker where it has one, else as a download. Resolves with the name the file got, or
 * null when the builder thought better of it; rejects with the browser's own error when the disk does not take it.
 */
export async function saveFile(content: Blob, suggestedName: string, kind: FileKind): Promise<string | null> {
  return (await saveFileAs(content, suggestedName, kind))?.name ?? null;
}

/** The same, with the means to write to the file again. */
export async function saveFileAs(content: Blob, suggestedName: string, kind: FileKind): Promise<SavedFile | null> {
  const picker = Reflect.get(globalThis, "showSaveFilePicker") as SavePicker | undefined;
  if (typeof picker !== "function") {
    download(content, suggestedName);
    return { name: suggestedName, handle: null };
  }
  try {
    const handle = await picker({
      suggestedName,
      types: [{ description: kind.description, accept: { [kind.mime]: [kind.ending] } }],
    });
    await writeTo(handle, content);
    return { name: handle.name, handle };
  } catch (error) {
    if (error instanceof Error && error.name === "AbortError") return null;
    // some embedded browsers have the picker but forbid it
    if (error instanceof Error && error.name === "SecurityError") {
      download(content, suggestedName);
      return { name: suggestedName, handle: null };
    }
    throw error;
  }
}

/** Writes over the file; until the last byte is there the file stays as it was. */
export async function writeTo(handle: FileSystemFileHandle, content: Blob): Promise<void> {
  const stream = await handle.createWritable();
  try {
    await stream.write(content);
    await stream.close();
  } catch (error) {
    await stream.abort?.().catch(() => {});
    throw error;
  }
}

function download(content: Blob, name: string): void {
  const address = URL.createObjectURL(content);
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  // the browser reads the address after the click returns
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** A file name out of words: letters and digits of any script, the rest dashes. */
export function fileNameOf(words: string, ending: string): string {
  const stem = words
    .toLowerCase()
    .normalize("NFC")
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 60)
    .replace(/-+$/, "");
  return `${stem || "elbowroom"}${ending}`;
}
