interface PickerType {
  readonly description: string;
  readonly accept: Readonly<Record<string, readonly string[]>>;
}
type SavePicker = (options: { suggestedName: string; types: readonly PickerType[] }) => Promise<{
  name: string;
  createWritable(): Promise<{ write(data: Blob): Promise<void>; close(): Promise<void> }>;
}>;

export interface FileKind {
  readonly description: string;
  readonly mime: string;
  readonly ending: string;
}

export const SCENE_FILE: FileKind = { description: "Scene", mime: "application/json", ending: ".json" };
export const LOG_FILE: FileKind = { description: "Build log", mime: "application/json", ending: ".json" };
export const PICTURE_FILE: FileKind = { description: "Picture", mime: "image/png", ending: ".png" };

/**
 * Saves through the browser's file picker where it has one, else as a download. Resolves with the name the file got, or
 * null when the builder thought better of it; rejects with the browser's own error when the disk does not take it.
 */
export async function saveFile(content: Blob, suggestedName: string, kind: FileKind): Promise<string | null> {
  const picker = Reflect.get(globalThis, "showSaveFilePicker") as SavePicker | undefined;
  if (typeof picker !== "function") {
    download(content, suggestedName);
    return suggestedName;
  }
  try {
    const handle = await picker({
      suggestedName,
      types: [{ description: kind.description, accept: { [kind.mime]: [kind.ending] } }],
    });
    const stream = await handle.createWritable();
    await stream.write(content);
    await stream.close();
    return handle.name;
  } catch (error) {
    if (error instanceof Error && error.name === "AbortError") return null;
    // some embedded browsers have the picker but forbid it
    if (error instanceof Error && error.name === "SecurityError") {
      download(content, suggestedName);
      return suggestedName;
    }
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
