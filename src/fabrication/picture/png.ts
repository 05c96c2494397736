import { encode } from "fast-png";

const MM_PER_METRE = 1000;
const SIGNATURE_BYTES = 8;
/** Length, name, 13 bytes and check of the first chunk, which says the size. */
const HEADER_BYTES = 25;

/**
 * Red, green and blue as PNG, which says how many pixels there are to a metre (chunk pHYs of the PNG specification, 11.3.5.3): printed at
 * its own size the picture is to scale.
 */
export function pngOf(rgb: Uint8Array, width: number, height: number, pxPerMm: number): Uint8Array<ArrayBuffer> {
  const plain = encode({ width, height, data: rgb, channels: 3, depth: 8 });
  const size = sizeChunk(Math.round(pxPerMm * MM_PER_METRE));
  const png = new Uint8Array(plain.length + size.length);
  const head = SIGNATURE_BYTES + HEADER_BYTES;
  png.set(plain.subarray(0, head));
  png.set(size, head);
  png.set(plain.subarray(head), head + size.length);
  return png;
}

function sizeChunk(pxPerMetre: number): Uint8Array {
  const chunk = new Uint8Array(21);
  const view = new DataView(chunk.buffer);
  view.setUint32(0, 9);
  chunk.set(new TextEncoder().encode("pHYs"), 4);
  view.setUint32(8, pxPerMetre);
  view.setUint32(12, pxPerMetre);
  chunk[16] = 1;
  view.setUint32(17, check(chunk.subarray(4, 17)));
  return chunk;
}

/** The cyclic redundancy code of the PNG specification, annex D. */
function check(bytes: Uint8Array): number {
  let code = 0xffffffff;
  for (const byte of bytes) {
    code ^= byte;
    for (let bit = 0; bit < 8; bit++) code = code & 1 ? (code >>> 1) ^ 0xedb88320 : code >>> 1;
  }
  return (code ^ 0xffffffff) >>> 0;
}
