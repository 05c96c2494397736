/** In pieces: one call cannot take the millions of arguments that a picture has. */
export function toBase64(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (let start = 0; start < bytes.length; start += 0x8000) {
    parts.push(String.fromCharCode(...bytes.subarray(start, start + 0x8000)));
  }
  return btoa(parts.join(""));
}

/** Text that is not base64 stays text: the card's own check then names the field. */
export function fromBase64(text: string): Uint8Array | string {
  let binary: string;
  try {
    binary = atob(text);
  } catch {
    return text;
  }
  const bytes = new Uint8Array(binary.length);
  for (let i = 0; i < binary.length; i++) bytes[i] = binary.charCodeAt(i);
  return bytes;
}
