/** Width and height in a PNG's header (PNG specification, third edition, section 11.2.1: IHDR comes first). */
export function pngSize(png: Uint8Array): { width: number; height: number } {
  const view = new DataView(png.buffer, png.byteOffset, png.byteLength);
  return { width: view.getUint32(16), height: view.getUint32(20) };
}
