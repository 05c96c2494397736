import { shortQuote } from "../../scene/path.ts";
import { ByteScanner } from "./byteScanner.ts";
import { Growing } from "./growing.ts";
import { checkTriangleCount, MOST_TRIANGLES, meshFault } from "./meshFault.ts";
import { type ReadShare, TELL_EVERY } from "./readShare.ts";

const MANY_CORNERS = 1000;
const [SLASH, BACKSLASH, REMARK] = [0x2f, 0x5c, 0x23];

/**
 * Corners of the triangles of all objects in the file, 9 coordinates each, in the file's unit. Faces of more than three corners
 * become fans; lines, points and everything but places is left out. Written here because the general loader can neither tell
 * how far it has come nor be stopped, and reads a face of vertices that are not there without a word.
 */
export function readObj(bytes: Uint8Array, fileName: string, onShare?: ReadShare): Float64Array {
  const scanner = new ByteScanner(bytes);
  const places = new Growing();
  const corners = new Growing();
  const face: number[] = [];
  for (let line = 1; scanner.at < bytes.length; line++) {
    if (line % TELL_EVERY === 0) onShare?.(scanner.at / bytes.length);
    scanner.skipBlanks();
    if (scanner.isWord("v")) {
      scanner.at++;
      for (let k = 0; k < 3; k++) {
        scanner.skipBlanks();
        places.push(scanner.isAtLineEnd() ? Number.NaN : scanner.number());
      }
    } else if (scanner.isWord("f")) {
      scanner.at++;
      readFace(scanner, face, places.length / 3, fileName, line);
      for (let k = 2; k < face.length; k++) {
        for (const vertex of [face[0]!, face[k - 1]!, face[k]!]) {
          for (let axis = 0; axis < 3; axis++) corners.push(places.at(3 * vertex + axis));
        }
      }
      // one face can have as many corners as there is room for
      if (line % TELL_EVERY === 0 || face.length > MANY_CORNERS) checkTriangleCount(corners.length / 9, fileName);
    }
    scanner.skipLine();
  }
  return corners.values();
}

/** Vertex numbers of a face, from 0; in the file they count from 1, or backwards from the newest. */
function readFace(scanner: ByteScanner, face: number[], count: number, fileName: string, line: number): void {
  face.length = 0;
  for (;;) {
    scanner.skipBlanks();
    // a line may go on below
    if (scanner.bytes[scanner.at] === BACKSLASH) {
      scanner.skipLine();
      continue;
    }
    if (scanner.isAtLineEnd() || scanner.bytes[scanner.at] === REMARK) return;
    const start = scanner.at;
    const number = scanner.number();
    const vertex = number > 0 ? number - 1 : count + number;
    if (!Number.isInteger(number) || vertex < 0 || vertex >= count || number === 0) {
      const written = new TextDecoder().decode(scanner.bytes.subarray(start, Math.min(scanner.at, start + 100)));
      const named = Number.isNaN(number) ? shortQuote(written) : number;
      const wrong = `line ${line} makes a face of vertex ${named}, of ${count} so far`;
      throw meshFault(fileName, wrong, "faces of vertices that come before them");
    }
    face.push(vertex);
    if (face.length > MOST_TRIANGLES) checkTriangleCount(face.length, fileName);
    if (scanner.bytes[scanner.at] === SLASH) scanner.at = scanner.wordEnd();
  }
}
