import { LARGEST_TABLE_BYTES, pointsTable, withPointsTable } from "../fabrication/exchange/pointsTable.ts";
import { InputError } from "../scene/error.ts";
import { listPoints } from "../scene/points.ts";
import { resolveScene } from "../scene/resolve.ts";
import { writeScene } from "../scene/write.ts";
import { loadScene } from "./loadScene.ts";
import { readInput, textOf } from "./readInput.ts";
import type { OptionName, VerbOptions, VerbOutcome } from "./verb.ts";

export const POINTS_OPTIONS = ["from", "datum"] as const satisfies readonly OptionName[];

/** `points`: the hard points as comma-separated values, or with `--from` the scene with the points where such a table has them. */
export async function runPoints(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const { document } = await loadScene(path);
  try {
    const { datums } = resolveScene(document, path);
    const datum = options.datum === undefined ? null : (datums.find(({ id }) => id === options.datum) ?? undefined);
    if (datum === undefined)
      throw new InputError(
        "missing-id",
        { path: "--datum" },
        `no datum is called "${options.datum}"`,
        datums.map(({ id }) => id).join(", ") || "a scene with datums",
      );
    if (options.from === undefined)
      return {
        output: options.json ? `${JSON.stringify({ points: listPoints(document) })}\n` : pointsTable(document, datum),
        status: 0,
      };
    const table = await readInput(options.from, LARGEST_TABLE_BYTES, {
      code: "unreadable",
      path: "--from",
      wanted: "a table of hard points",
    });
    const changed = withPointsTable(document, textOf(table), datum);
    // what cannot stand is told before it is kept anywhere
    resolveScene(changed, path);
    return { output: writeScene(changed), status: 0 };
  } catch (error) {
    throw error instanceof InputError ? error.in(path) : error;
  }
}
