import { Unzip, UnzipInflate, unzipSync } from "fflate";
import { InputError } from "../../scene/error.ts";

/** All that a log may weigh unpacked, so that a small file cannot become endless. */
const MOST_BYTES = 500_000_000;
const MOST_FILES = 20_000;
/** So little is unpacked at a time that what comes of it (a thousand times as much, at most) is seen before there is more. */
const STEP_BYTES = 1 << 16;

/**
 * Every file in a zip by its name. What its list says of sizes is not believed: it is counted while it is unpacked. Throws
 * InputError `unreadable` for what is no zip or not all of one, `too-large`.
 */
export function unpackedZip(bytes: Uint8Array, file: string): Map<string, Uint8Array> {
  const wanted = "a build log as it was saved";
  const tooLarge = (wrong: string) => new InputError("too-large", { file }, wrong, wanted);
  try {
    const listed = listedNames();
    const files = unpacked();
    const missing = listed.find((name) => !files.has(name));
    if (missing !== undefined) throw new Error("a file that is listed is not there");
    return files;
  } catch (error) {
    if (error instanceof InputError) throw error;
    throw new InputError("unreadable", { file }, "it is not a zip, or not all of it", wanted);
  }

  /** By the list at the end, which is not there when the file was cut off. */
  function listedNames(): string[] {
    const names: string[] = [];
    let size = 0;
    unzipSync(bytes, {
      filter: ({ name, originalSize }) => {
        names.push(name);
        size += originalSize;
        if (names.length > MOST_FILES) throw tooLarge(`it holds more than ${MOST_FILES} files`);
        if (size > MOST_BYTES) throw tooLarge("it unpacks to more than 500 MB");
        return false;
      },
    });
    return names;
  }

  function unpacked(): Map<string, Uint8Array> {
    const files = new Map<string, Uint8Array>();
    let total = 0;
    let started = 0;
    const unzip = new Unzip((entry) => {
      const parts: Uint8Array[] = [];
      if (++started > MOST_FILES) throw tooLarge(`it holds more than ${MOST_FILES} files`);
      entry.ondata = (error, part, isLast) => {
        if (error) throw error;
        total += part.length;
        if (total > MOST_BYTES) throw tooLarge("it unpacks to more than 500 MB");
        parts.push(part);
        if (isLast) files.set(entry.name, joined(parts));
      };
      entry.start();
    });
    unzip.register(UnzipInflate);
    for (let at = 0; at < bytes.length; at += STEP_BYTES) {
      unzip.push(bytes.subarray(at, at + STEP_BYTES), at + STEP_BYTES >= bytes.length);
    }
    return files;
  }
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  if (parts.length === 1) return parts[0]!.slice();
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
