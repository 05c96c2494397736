import { InputError } from "../../scene/error.ts";
import { readScene } from "../../scene/read.ts";
import { app } from "../store/useApp.ts";
import { desk } from "./theDesk.ts";

export interface Sample {
  readonly fileName: string;
  /** The file's name in words, for the menu. */
  readonly name: string;
  load(): Promise<string>;
}

const files = import.meta.glob<string>("../../../scenes/*.json", { query: "?raw", import: "default" });

/** The sample scenes that come with the program, by name. */
export const SAMPLES: readonly Sample[] = Object.entries(files)
  .map(([path, load]) => {
    const fileName = path.slice(path.lastIndexOf("/") + 1);
    const words = fileName
      .replace(/\.json$/, "")
      .replace(/^\d+[-_]?/, "")
      .replace(/[-_]+/g, " ");
    return { fileName, name: words.charAt(0).toUpperCase() + words.slice(1), load };
  })
  .sort((a, b) => (a.fileName < b.fileName ? -1 : 1));

/** The scene's own title; where it cannot be read, the file's name in words. */
export async function titleOf(sample: Sample): Promise<string> {
  try {
    return readScene(await sample.load(), sample.fileName).title || sample.name;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return sample.name;
  }
}

export async function openSample(sample: Sample): Promise<void> {
  try {
    await desk.openSample(readScene(await sample.load(), sample.fileName), sample.fileName);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    app.setState({ error });
  }
}
