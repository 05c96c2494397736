import { useEffect, useState } from "react";
import type { CardPicture } from "../../buildlog/entry.ts";

/** An address under which the page can show the picture while the component stands; null before, or without one. */
export function usePicture(picture: CardPicture | null): string | null {
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

export function pictureBlob(picture: CardPicture): Blob {
  return new Blob([picture.png as Uint8Array<ArrayBuffer>], { type: "image/png" });
}
