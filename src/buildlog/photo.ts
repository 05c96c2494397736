import type { PhotoType } from "./entry.ts";

/** Signatures at the start of a file: PNG specification (third edition, W3C 2025), section 5.2; JPEG's SOI marker, ITU-T T.81, annex B. */
const PNG = [137, 80, 78, 71, 13, 10, 26, 10];
const JPEG = [0xff, 0xd8, 0xff];
/** "RIFF", four bytes of size, "WEBP": RFC 9649, section 2.4. */
const RIFF = [0x52, 0x49, 0x46, 0x46];
const WEBP = [0x57, 0x45, 0x42, 0x50];

/** What picture the bytes are, by their signature; null: none that a log holds. A drawing made of markup is none. */
export function photoTypeOf(bytes: Uint8Array): PhotoType | null {
  if (startsWith(bytes, PNG, 0)) return "image/png";
  if (startsWith(bytes, JPEG, 0)) return "image/jpeg";
  if (startsWith(bytes, RIFF, 0) && startsWith(bytes, WEBP, 8)) return "image/webp";
  return null;
}

/** The ending of a file of that kind, without the point. */
export function endingOf(type: PhotoType): "png" | "jpg" | "webp" {
  return type === "image/jpeg" ? "jpg" : type === "image/png" ? "png" : "webp";
}

function startsWith(bytes: Uint8Array, signature: readonly number[], at: number): boolean {
  return signature.every((byte, index) => bytes[at + index] === byte);
}
