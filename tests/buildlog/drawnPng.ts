import { zlibSync } from "fflate";

/** A real PNG (third edition, W3C 2025): one colour, 8 bits a channel, no filter. */
export function drawnPng(width: number, height: number, [r, g, b]: readonly [number, number, number]): Uint8Array {
  const row = [0, ...Array.from({ length: width }, () => [r, g, b]).flat()];
  const pixels = Uint8Array.from(Array.from({ length: height }, () => row).flat());
  const header = new Uint8Array(13);
  new DataView(header.buffer).setUint32(0, width);
  new DataView(header.buffer).setUint32(4, height);
  header.set([8, 2, 0, 0, 0], 8);
  const parts = [
    Uint8Array.of(137, 80, 78, 71, 13, 10, 26, 10),
    chunk("IHDR", header),
    chunk("IDAT", zlibSync(pixels)),
    chunk("IEND", new Uint8Array()),
  ];
  return Uint8Array.from(parts.flatMap((part) => [...part]));
}

function chunk(type: string, data: Uint8Array): Uint8Array {
  const bytes = new Uint8Array(12 + data.length);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, data.length);
  bytes.set(
    [...type].map((letter) => letter.charCodeAt(0)),
    4,
  );
  bytes.set(data, 8);
  view.setUint32(8 + data.length, crc32(bytes.subarray(4, 8 + data.length)));
  return bytes;
}

/** ISO 3309, as the PNG specification's annex D has it. */
function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let i = 0; i < 8; i++) crc = crc & 1 ? 0xedb88320 ^ (crc >>> 1) : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}
