import { open } from "node:fs/promises";
import { InputError, type InputErrorCode } from "../scene/error.ts";

/** How a file that cannot be read is told. */
export interface InputPlace {
  readonly code: InputErrorCode;
  readonly file?: string;
  readonly path?: string;
  readonly wanted: string;
}

/**
 * The bytes of a file (or of what is piped in its place), no more than `most`: what has no end is not read to it. Throws
 * InputError `too-large`, or with the code of `place`.
 */
export async function readInput(path: string, most: number, place: InputPlace): Promise<Uint8Array> {
  const it = place.file === path ? "it" : `"${path}"`;
  const refuse = (wrong: string) => new InputError(place.code, place, wrong, place.wanted);
  const tooLarge = (size: number | string) =>
    new InputError("too-large", place, `${it} has ${size} bytes`, `at most ${most}`);
  try {
    const handle = await open(path);
    try {
      const info = await handle.stat();
      if (!info.isFile() && !info.isFIFO()) throw refuse(`${it} is no file`);
      if (info.size > most) throw tooLarge(info.size);
      const parts: Uint8Array[] = [];
      let size = 0;
      for await (const part of handle.createReadStream({ highWaterMark: 1 << 20, autoClose: false })) {
        size += part.length;
        if (size > most) throw tooLarge(`more than ${most}`);
        parts.push(part);
      }
      return Buffer.concat(parts, size);
    } finally {
      await handle.close();
    }
  } catch (error) {
    if (error instanceof InputError) throw error;
    const code = (error as NodeJS.ErrnoException).code ?? "unknown";
    throw refuse(
      code === "ENOENT" ? `there is no such file${it === "it" ? "" : `: ${it}`}` : `${it} cannot be read (${code})`,
    );
  }
}

export function textOf(bytes: Uint8Array): string {
  return new TextDecoder().decode(bytes);
}
