import { Unzip, UnzipInflate, unzipSync } from "fflate";
import { InputError } from "../../scene/error.ts";

/** All that a log may weigh unpacked, so that a small file cannot become endless. */
const MOST_BYTES = 500_000_000;
const MOST_FILES = 20_000;
/** So little is unpacked at a time that what comes of it (a thousand times as much, at most) is seen before there is more. */
const STEP_BYTES = 1 << 16;

/**
 * Every file in a zip by its name. A file that comes out otherwise than the list at the end says is refused while it is unpacked.
 * Throws InputError `unreadable` for what is no zip or not all of one, `too-large`.
 */
export function unpackedZip(bytes: Uint8Array, file: string): Map<string, Uint8Array> {
  const wanted = "a build log as it was saved";
  try {
    return unpacked(listedSizes());
  } catch (error) {
    if (error instanceof InputError) throw error;
    throw new InputError("unreadable", { file }, "it is not a zip, or not all of it", wanted);
  }

  /** By the list at the end, which is not there when the file was cut off. */
  function listedSizes(): Map<string, number> {
    const tooLarge = (wrong: string) => new InputError("too-large", { file }, wrong, wanted);
    const sizes = new Map<string, number>();
    let [count, total] = [0, 0];
    unzipSync(bytes, {
      filter: ({ name, originalSize }) => {
        sizes.set(name, originalSize);
        total += originalSize;
        if (++count > MOST_FILES) throw tooLarge(`it holds more than ${MOST_FILES} files`);
        if (total > MOST_BYTES) throw tooLarge("it unpacks to more than 500 MB");
        return false;
      },
    });
    return sizes;
  }

  function unpacked(sizes: ReadonlyMap<string, number>): Map<string, Uint8Array> {
    const files = new Map<string, Uint8Array>();
    const unzip = new Unzip((entry) => {
      const size = sizes.get(entry.name);
      if (size === undefined || files.has(entry.name)) throw new Error("a file is there that the list has not");
      const content = new Uint8Array(size);
      files.set(entry.name, content);
      let at = 0;
      entry.ondata = (error, part, isLast) => {
        if (error) throw error;
        // what is too long does not fit, and throws
        content.set(part, at);
        at += part.length;
        if (isLast && at < size) throw new Error("a file is shorter than the list says");
      };
      entry.start();
    });
    unzip.register(UnzipInflate);
    for (let at = 0; at < bytes.length; at += STEP_BYTES) {
      unzip.push(bytes.subarray(at, at + STEP_BYTES), at + STEP_BYTES >= bytes.length);
    }
    if (files.size < sizes.size) throw new Error("a file that is listed is not there");
    return files;
  }
}
