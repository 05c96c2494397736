import { useEffect, useState } from "react";
import type { PhotoType } from "../../buildlog/entry.ts";

/** Bytes of a picture; without a type they are a PNG. The address stays for as long as the record does. */
export type ShownPicture = { readonly png: Uint8Array } | { readonly bytes: Uint8Array; readonly type: PhotoType };

/** An address under which the page can show the picture while the component stands; null before, or without one. */
export function usePicture(picture: ShownPicture | null): string | null {
  const [address, setAddress] = useState<string | null>(null);
  useEffect(() => {
    if (!picture) {
      setAddress(null);
      return;
    }
    const made = URL.createObjectURL(pictureBlob(picture));
    setAddress(made);
    return () => URL.revokeObjectURL(made);
  }, [picture]);
  return address;
}

export function pictureBlob(picture: ShownPicture): Blob {
  const [bytes, type] = "png" in picture ? [picture.png, "image/png"] : [picture.bytes, picture.type];
  return new Blob([bytes as Uint8Array<ArrayBuffer>], { type });
}
