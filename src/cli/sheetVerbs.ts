import { writeFile } from "node:fs/promises";
import { canonicalJson, fingerprint } from "../buildlog/hash.ts";
import type { SheetFacts } from "../fabrication/paper/frame.ts";
import { revisionText } from "../fabrication/paper/revision.ts";
import type { SheetSetting } from "../fabrication/paper/sheet.ts";
import type { Standing } from "../fabrication/paper/words.ts";
import { type CutList, type CutSetting, cutListOf, USUAL_CUT } from "../fabrication/sheets/cutList.ts";
import { cutListCsv } from "../fabrication/sheets/cutListCsv.ts";
import { CUT_ENGLISH } from "../fabrication/sheets/cutListWords.ts";
import { type HardPointLine, hardPointLines, hardPointsCsv } from "../fabrication/sheets/hardPoints.ts";
import { jigCsv } from "../fabrication/sheets/jigCsv.ts";
import { groundFrom, type JigSheetData, jigSheetData } from "../fabrication/sheets/jigSheetData.ts";
import type { SceneDocument } from "../scene/document.ts";
import { InputError } from "../scene/error.ts";
import type { LengthUnit } from "../scene/length.ts";
import { resolveScene } from "../scene/resolve.ts";
import type { Datum } from "../scene/scene.ts";
import { paperOf, unitOf } from "./choice.ts";
import { loadScene } from "./loadScene.ts";
import { numberOf } from "./numbers.ts";
import { sheetFonts } from "./sheetFonts.ts";
import type { OptionName, VerbOptions, VerbOutcome } from "./verb.ts";

/** What every sheet takes. The libraries that print are imported when one is asked for. */
const SHEET_OPTIONS = ["to", "paper", "revision", "date", "units"] as const satisfies readonly OptionName[];

export const CUT_LIST_OPTIONS: readonly OptionName[] = [...SHEET_OPTIONS, "saw", "trim", "stock"];
export const POINT_SHEET_OPTIONS: readonly OptionName[] = [...SHEET_OPTIONS, "datum", "built"];
export const JIG_SHEET_OPTIONS: readonly OptionName[] = [...SHEET_OPTIONS, "datum", "table", "bar"];

/** Cautions of the sheets, in English; the app has them in its languages. */
const CAUTIONS = [
  "Shape and movement only, rigid parts: it does not check strength. Have an engineer see arms, mounts and welds; ask your inspector before cutting.",
  "Measure again before you weld. Prove it by hand, spring out, on stands, never on a jack alone.",
];

const CAR_DATUM = "ground, centre plane, axle line";

/** What a sheet tells, as one document. */
type SheetDocument =
  | ({ readonly cut: CutSetting } & CutList)
  | { readonly datum: string | null; readonly points: readonly HardPointLine[] }
  | ({ readonly datum: string | null; readonly table_mm: number } & JigSheetData);

interface Made {
  /** Sentences that belong beside the file, one a line. */
  readonly notes?: readonly string[];
  readonly status?: 0 | 1;
  readonly json: SheetDocument;
  csv(): string;
  pdf(facts: SheetFacts, setting: SheetSetting, unit: LengthUnit): Promise<Uint8Array>;
}

/** `cutlist`: what is cut and counted out; 1 where an end, a wall or room for a thread is missing. */
export async function runCutList(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const cut: CutSetting = {
    saw_mm: numberOf("saw", options.saw, USUAL_CUT.saw_mm, 0),
    trim_mm: numberOf("trim", options.trim, USUAL_CUT.trim_mm, 0),
    stock_mm: options.stock === undefined ? null : numberOf("stock", options.stock, 0, 1),
  };
  return sheetOutcome(path, options, { title: "Cut list", datum: null }, (document) => {
    const list = cutListOf(document, cut);
    return {
      json: { cut, ...list },
      csv: () => cutListCsv(list),
      pdf: async (facts, setting, unit) => {
        const { cutListSheet } = await import("../fabrication/sheets/cutListSheet.ts");
        return cutListSheet(list, cut, facts, setting, unit);
      },
      notes: list.faults.map((fault) => CUT_ENGLISH.fault[fault.code]("joint" in fault ? fault.joint : fault.part)),
      status: list.faults.some(({ code }) => code !== "no-tube") ? 1 : 0,
    };
  });
}

/** `pointsheet`: every hard point as drawn and as measured on both sides. */
export async function runPointSheet(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const standing = options.built ? "built" : "drawn";
  return sheetOutcome(path, options, { title: "Hard-point sheet", standing }, (document, datum) => {
    if (standing === "built" && !document.measured)
      throw new InputError(
        "wrong-value",
        { path: "--built" },
        "nothing was measured on this car yet",
        "a scene with measured points, or no --built",
      );
    const lines = hardPointLines(document, datum);
    return {
      json: { datum: datum?.id ?? null, points: lines },
      csv: () => hardPointsCsv(lines),
      pdf: async (facts, setting, unit) => {
        const { hardPointSheet } = await import("../fabrication/sheets/hardPointSheet.ts");
        return hardPointSheet(lines, facts, setting, unit);
      },
    };
  });
}

/** `jigsheet`: heights over the jig table and lengths for a tape. */
export async function runJigSheet(path: string, options: VerbOptions): Promise<VerbOutcome> {
  return sheetOutcome(path, options, { title: "Jig sheet" }, (document, datum) => {
    const table_mm = options.table === undefined ? groundFrom(datum) : numberOf("table", options.table, 0, -10_000);
    const bar_mm = options.bar === undefined ? null : numberOf("bar", options.bar, 0, 0);
    const data = jigSheetData(document, datum, { table_mm, bar_mm });
    return {
      json: { datum: datum?.id ?? null, table_mm, ...data },
      csv: () => jigCsv(data),
      pdf: async (facts, setting, unit) => {
        const { jigSheet } = await import("../fabrication/sheets/jigSheet.ts");
        return jigSheet(data, bar_mm, facts, setting, unit);
      },
    };
  });
}

/** Prints the table, or with --to writes it or the PDF. */
async function sheetOutcome(
  path: string,
  options: VerbOptions,
  about: { readonly title: string; readonly standing?: Standing; readonly datum?: null },
  make: (document: SceneDocument, datum: Datum | null) => Made,
): Promise<VerbOutcome> {
  const { document, name } = await loadScene(path);
  try {
    const datum = about.datum === null ? null : datumNamed(document, options.datum);
    const { json, csv, pdf, notes = [], status = 0 } = make(document, datum);
    const { to } = options;
    if (to === undefined) {
      const output = options.json ? `${JSON.stringify({ scene: name, ...json })}\n` : csv();
      return { output, status };
    }
    const [paper, unit] = [paperOf(options), unitOf(options)];
    if (/\.csv$/i.test(to)) await writeFile(to, csv());
    else if (/\.pdf$/i.test(to)) {
      const facts: SheetFacts = {
        title: about.title,
        subject: document.title,
        date: options.date ?? new Date().toISOString().slice(0, 10),
        revision: revisionText(options.revision ?? "", fingerprint(canonicalJson(document))),
        units: unit === "mm" ? "mm" : "inches",
        standing: about.standing ?? "drawn",
        datum: datum?.id ?? CAR_DATUM,
        cautions: CAUTIONS,
      };
      await writeFile(to, await pdf(facts, { paper, fonts: await sheetFonts() }, unit));
    } else
      throw new InputError(
        "wrong-format",
        { path: "--to" },
        `"${to}" is no table and no sheet`,
        "FILE.csv or FILE.pdf",
      );
    const told = options.json ? `${JSON.stringify({ scene: name, file: to, notes })}\n` : [to, ...notes, ""].join("\n");
    return { output: told, status };
  } catch (error) {
    throw error instanceof InputError ? error.in(path) : error;
  }
}

function datumNamed(document: SceneDocument, id: string | undefined): Datum | null {
  if (id === undefined) return null;
  const { datums } = resolveScene(document);
  const datum = datums.find((one) => one.id === id);
  if (datum) return datum;
  const wanted = datums.length > 0 ? `one of ${datums.map((one) => one.id).join(", ")}` : "a scene with datums";
  throw new InputError("missing-id", { path: "--datum" }, `there is no datum "${id}"`, wanted);
}
