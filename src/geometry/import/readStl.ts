import { STLLoader } from "three/examples/jsm/loaders/STLLoader.js";
import { checkTriangleCount, meshFault } from "./meshFault.ts";

const HEADER_BYTES = 84;
const TRIANGLE_BYTES = 50;

/** Corners of the triangles, 9 coordinates each, in the file's unit. Binary (84 + 50·n bytes) or ASCII. */
export function readStl(bytes: Uint8Array, fileName: string): Float32Array {
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
  const padded = new Uint8Array(Math.max(bytes.length, HEADER_BYTES)); // the loader looks at byte 80 of any file
  padded.set(bytes);
  return new STLLoader().parse(padded.buffer).getAttribute("position").array as Float32Array;
}

/** Up to five bytes (an encoding's mark) may stand before the word. */
function startsWithSolid(bytes: Uint8Array): boolean {
  const at = latin1(bytes.subarray(0, 10)).indexOf("solid");
  return at >= 0 && at < 5;
}

function latin1(bytes: Uint8Array): string {
  return new TextDecoder("latin1").decode(bytes);
}
