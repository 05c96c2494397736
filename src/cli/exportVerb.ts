import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { assembleModel } from "../check/assemble.ts";
import { glbOf } from "../fabrication/exchange/glb.ts";
import { stlNames } from "../fabrication/exchange/partsZip.ts";
import { type StandingPart, standingParts } from "../fabrication/exchange/standing.ts";
import { objOf, stlOf } from "../geometry/export/meshFiles.ts";
import { InputError } from "../scene/error.ts";
import { resolveScene } from "../scene/resolve.ts";
import { loadScene } from "./loadScene.ts";
import { numberOf } from "./numbers.ts";
import type { OptionName, VerbOptions, VerbOutcome } from "./verb.ts";

export const EXPORT_OPTIONS = ["to", "at", "pose", "part"] as const satisfies readonly OptionName[];

/** `export`: the bodies that are checked, where they stand at one travel and engine pose, as mesh files. */
export async function runExport(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const { to, part } = options;
  if (!to) throw new InputError("missing-id", { path: "--to" }, "no file is named", WANTED);
  const { name, document, meshFiles } = await loadScene(path);
  const travel_mm = numberOf("at", options.at, 0, -1000);
  const pose = options.pose ?? "rest";
  try {
    const scene = resolveScene(document, path);
    const all = standingParts(scene, assembleModel(scene, meshFiles), { travel_mm, pose });
    const parts = part === undefined ? all : all.filter(({ key }) => key === part || key.startsWith(`${part}@`));
    if (parts.length === 0)
      throw new InputError(
        "missing-id",
        { path: "--part" },
        `no part is called "${part}"`,
        `one of ${all.map(({ key }) => key).join(", ")}`,
      );
    const files = await write(to, parts);
    return {
      output: options.json
        ? `${JSON.stringify({ scene: name, travel_mm, pose, files, parts: parts.map(({ key }) => key) })}\n`
        : `${files.join("\n")}\n`,
      status: 0,
    };
  } catch (error) {
    throw error instanceof InputError ? error.in(path) : error;
  }
}

const WANTED = "FILE.glb, FILE.obj, FILE.stl for one part, or FOLDER/ for an STL of each";

async function write(to: string, parts: readonly StandingPart[]): Promise<string[]> {
  if (/\.glb$/i.test(to)) await writeFile(to, await glbOf(parts));
  else if (/\.obj$/i.test(to)) await writeFile(to, objOf(parts));
  else if (/\.stl$/i.test(to)) {
    if (parts.length > 1)
      throw new InputError(
        "wrong-value",
        { path: "--to" },
        `an STL holds one part, and there are ${parts.length}`,
        "--part with the name of one, or FOLDER/ for an STL of each",
      );
    await writeFile(to, stlOf(parts[0]!));
  } else if (/[/\\]$/.test(to)) {
    await mkdir(to, { recursive: true });
    const names = stlNames(parts.map(({ key }) => key));
    const files = parts.map((part, i) => ({ part, file: join(to, names[i]!) }));
    for (const { part, file } of files) await writeFile(file, stlOf(part));
    return files.map(({ file }) => file);
  } else throw new InputError("wrong-format", { path: "--to" }, `"${to}" ends in no format that is written`, WANTED);
  return [to];
}
