import { ByteScanner } from "./byteScanner.ts";
import { Growing } from "./growing.ts";
import { checkTriangleCount, meshFault } from "./meshFault.ts";
import { type ReadShare, TELL_EVERY } from "./readShare.ts";

const HEADER_BYTES = 84;
const TRIANGLE_BYTES = 50;

/** Corners of the triangles, 9 coordinates each, in the file's unit. Binary (84 + 50·n bytes) or ASCII. */
export function readStl(bytes: Uint8Array, fileName: string, onShare?: ReadShare): Float32Array | Float64Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const claimed = bytes.length >= HEADER_BYTES ? view.getUint32(80, true) : 0;
  const isText = bytes.length !== HEADER_BYTES + TRIANGLE_BYTES * claimed && startsWithSolid(bytes);
  if (!isText) {
    if (bytes.length < HEADER_BYTES) throw meshFault(fileName, "the file is too short for an STL", "a whole STL file");
    const room = Math.floor((bytes.length - HEADER_BYTES) / TRIANGLE_BYTES);
    if (claimed > room) {
      const wrong = `its header claims ${claimed} triangles, but the file has room for ${room}`;
      throw meshFault(fileName, wrong, "a whole STL file");
    }
    checkTriangleCount(claimed, fileName);
  } else if (!/endsolid/.test(latin1(bytes.subarray(-4096)))) {
    throw meshFault(fileName, "the text ends without `endsolid`", "a whole STL file");
  }
  return isText ? readText(bytes, onShare) : readBinary(view, claimed, onShare);
}

function readBinary(view: DataView, count: number, onShare?: ReadShare): Float32Array {
  const corners = new Float32Array(9 * count);
  for (let t = 0; t < count; t++) {
    if (t % TELL_EVERY === 0) onShare?.(t / count);
    // a normal, which the corners tell as well, comes first
    const at = HEADER_BYTES + TRIANGLE_BYTES * t + 12;
    for (let i = 0; i < 9; i++) corners[9 * t + i] = view.getFloat32(at + 4 * i, true);
  }
  return corners;
}

function readText(bytes: Uint8Array, onShare?: ReadShare): Float64Array {
  const scanner = new ByteScanner(bytes);
  const corners = new Growing();
  for (let word = 0; ; word++) {
    if (word % TELL_EVERY === 0) onShare?.(scanner.at / bytes.length);
    scanner.skipBlanks(true);
    if (scanner.at >= bytes.length) break;
    const isVertex = scanner.isWord("vertex");
    scanner.at = scanner.wordEnd();
    for (let k = 0; isVertex && k < 3; k++) {
      scanner.skipBlanks(true);
      corners.push(scanner.number());
    }
  }
  return corners.values().subarray(0, corners.length - (corners.length % 9));
}

/** Up to five bytes (an encoding's mark) may stand before the word. */
function startsWithSolid(bytes: Uint8Array): boolean {
  const at = latin1(bytes.subarray(0, 10)).indexOf("solid");
  return at >= 0 && at < 5;
}

function latin1(bytes: Uint8Array): string {
  return new TextDecoder("latin1").decode(bytes);
}
