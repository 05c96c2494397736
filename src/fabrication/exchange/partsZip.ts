import { zipSync } from "fflate";
import { type NamedMesh, stlOf } from "../../geometry/export/meshFiles.ts";

/** The earliest that a zip can tell: the same parts are the same file. */
const NO_TIME = new Date(1980, 0, 1);

/** What a part is saved as: its key, of which only what every file system takes is kept. */
export function stlName(key: string): string {
  return `${key.replace(/[^\w.@-]+/g, "_")}.stl`;
}

/** A binary STL of each part in one zip. */
export function stlZip(parts: readonly NamedMesh[]): Uint8Array<ArrayBuffer> {
  const files: Record<string, Uint8Array> = {};
  for (const part of parts) {
    const name = stlName(part.key);
    // keys differ, but not always in what is kept of them
    const free = name in files ? name.replace(/\.stl$/, `-${Object.keys(files).length}.stl`) : name;
    files[free] = stlOf(part);
  }
  return zipSync(files, { mtime: NO_TIME }) as Uint8Array<ArrayBuffer>;
}
