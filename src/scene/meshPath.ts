const KINDS = /\.(?:stl|obj|ply|glb)$/i;

/** What keeps a mesh's name from being a file within the scene's folder; null: nothing. Names use "/" between folders. */
export function meshPathFault(file: string): string | null {
  if (/^[a-z][a-z0-9+.-]*:/i.test(file)) return "names a drive or an address";
  if (file.includes("\\")) return "holds a backslash";
  if (file.startsWith("/")) return "starts at the root of the disk";
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is refused
  if (/[\u0000-\u001f\u007f]/.test(file)) return "holds a control character";
  const steps = file.split("/");
  if (steps.includes("..")) return "leaves the scene's folder";
  if (steps.some((step) => step === "" || step === ".")) return "holds an empty step";
  if (!KINDS.test(file)) return "is no mesh file by its name";
  return null;
}
