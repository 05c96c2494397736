/** What a dropped or chosen file is taken for, by the ending of its name. */
export interface SortedFiles<F extends { readonly name: string }> {
  readonly json: readonly F[];
  readonly meshes: readonly F[];
  readonly others: readonly F[];
}

export const MESH_ENDINGS = [".stl", ".obj", ".ply", ".glb"] as const;

export function sortFiles<F extends { readonly name: string }>(files: readonly F[]): SortedFiles<F> {
  const kindOf = (file: F) => {
    const name = file.name.toLowerCase();
    if (name.endsWith(".json")) return "json";
    return MESH_ENDINGS.some((ending) => name.endsWith(ending)) ? "mesh" : "other";
  };
  return {
    json: files.filter((file) => kindOf(file) === "json"),
    meshes: files.filter((file) => kindOf(file) === "mesh"),
    others: files.filter((file) => kindOf(file) === "other"),
  };
}

/**
 * Which files hold the meshes that a scene names. A dropped file has lost its folder, so the last part of the scene's
 * path counts, in its own case first, in any case else. Names without a file are `missing`.
 */
export function matchMeshes<F extends { readonly name: string }>(
  wanted: readonly string[],
  files: readonly F[],
): { readonly found: ReadonlyMap<string, F>; readonly missing: readonly string[] } {
  const found = new Map<string, F>();
  for (const path of wanted) {
    const last = path.slice(path.lastIndexOf("/") + 1);
    const file =
      files.find(({ name }) => name === last) ?? files.find(({ name }) => name.toLowerCase() === last.toLowerCase());
    if (file) found.set(path, file);
  }
  return { found, missing: wanted.filter((path) => !found.has(path)) };
}
