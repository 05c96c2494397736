import { zipSync } from "fflate";
import { type NamedMesh, stlOf } from "../../geometry/export/meshFiles.ts";

/** The earliest that a zip can tell: the same parts are the same file. */
const NO_TIME = new Date(1980, 0, 1);

/** Names that some systems keep for devices, whatever the ending. */
const DEVICE = /^(?:con|prn|aux|nul|com\d|lpt\d)(?=\.|$)/i;

/** What a part is saved as: its key, of which only what every file system takes is kept. */
export function stlName(key: string): string {
  return `${key.replace(/[^\w.@-]+/g, "_").replace(DEVICE, "_$&")}.stl`;
}

/** The same for all of them: keys differ, but not always in what is kept of them, or in more than capitals. */
export function stlNames(keys: readonly string[]): string[] {
  const taken = new Set<string>();
  return keys.map((key) => {
    const stem = stlName(key).replace(/\.stl$/, "");
    for (let n = 1; ; n++) {
      const name = `${stem}${n === 1 ? "" : `-${n}`}.stl`;
      if (taken.has(name.toLowerCase())) continue;
      taken.add(name.toLowerCase());
      return name;
    }
  });
}

/** A binary STL of each part in one zip. */
export function stlZip(parts: readonly NamedMesh[]): Uint8Array<ArrayBuffer> {
  const files: Record<string, Uint8Array> = {};
  const names = stlNames(parts.map(({ key }) => key));
  for (const [i, part] of parts.entries()) files[names[i]!] = stlOf(part);
  return zipSync(files, { mtime: NO_TIME }) as Uint8Array<ArrayBuffer>;
}
