import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { canonicalJson, fingerprint } from "../buildlog/hash.ts";
import type { SheetFacts } from "../fabrication/paper/frame.ts";
import { revisionText } from "../fabrication/paper/revision.ts";
import { type Correction, correctionFor, NO_CORRECTION } from "../fabrication/templates/checkBars.ts";
import { boxAround, polygonOf } from "../fabrication/templates/drawing.ts";
import { USUAL_FOLDING } from "../fabrication/templates/fold.ts";
import {
  fileDrawing,
  notesOf,
  type TemplatePart,
  type Templates,
  templatesOf,
} from "../fabrication/templates/templates.ts";
import { templatesPdf } from "../fabrication/templates/templatesPdf.ts";
import { mm } from "../fabrication/templates/words.ts";
import { dxfOf } from "../fabrication/templates/writeDxf.ts";
import { svgOf } from "../fabrication/templates/writeSvg.ts";
import type { SceneDocument } from "../scene/document.ts";
import { InputError } from "../scene/error.ts";
import { paperOf } from "./choice.ts";
import { loadScene } from "./loadScene.ts";
import { numberOf } from "./numbers.ts";
import { sheetFonts } from "./sheetFonts.ts";
import type { OptionName, VerbOptions, VerbOutcome } from "./verb.ts";

export const TEMPLATE_OPTIONS = [
  "to",
  "part",
  "fold",
  "k-factor",
  "bend-radius",
  "paper",
  "measured",
  "bare",
  "revision",
  "date",
] as const satisfies readonly OptionName[];

const CAUTIONS = [
  "Shape and movement only, rigid parts: it does not check strength. Have an engineer see arms, mounts and welds; ask your inspector before cutting.",
  "Measure the bars on this page before you cut by it, and the part against the car before you weld.",
];

/** `template`: plates laid flat and tube ends to wrap. Status 1: one of them falls short of a rule. */
export async function runTemplate(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const { name, document } = await loadScene(path);
  try {
    const templates = templatesOf(document, {
      parts: options.part === undefined ? null : [options.part],
      folded: options.fold ?? [],
      folding: {
        kFactor: numberOf("k-factor", options["k-factor"], USUAL_FOLDING.kFactor),
        inside_mm: options["bend-radius"] === undefined ? null : numberOf("bend-radius", options["bend-radius"], 0),
      },
    });
    const parts: TemplatePart[] = [...templates.plates, ...templates.wraps];
    const files = options.to === undefined ? [] : await write(options.to, parts, document, options);
    const isShort = parts.some((part) => notesOf(part).some(({ isWarning }) => isWarning));
    return {
      output: options.json
        ? `${JSON.stringify({ scene: name, files, ...listed(templates) })}\n`
        : `${[...told(name, templates), ...files].join("\n")}\n`,
      status: isShort ? 1 : 0,
    };
  } catch (error) {
    throw error instanceof InputError ? error.in(path) : error;
  }
}

const WANTED = "FILE.pdf, FILE.dxf, FILE.svg, or FOLDER/ for a DXF and an SVG of each and one PDF";

async function write(
  to: string,
  parts: readonly TemplatePart[],
  document: SceneDocument,
  options: VerbOptions,
): Promise<string[]> {
  if (parts.length === 0)
    throw new InputError("wrong-value", { path: "--to" }, "there is nothing to write", "a scene with plates or tubes");
  const bare = { withoutNotes: options.bare ?? false };
  const pdf = async () =>
    templatesPdf(
      parts,
      facts(document, options),
      { paper: paperOf(options), fonts: await sheetFonts() },
      correctionOf(options.measured),
    );
  if (/\.pdf$/i.test(to)) await writeFile(to, await pdf());
  else if (/\.dxf$/i.test(to)) await writeFile(to, dxfOf(fileDrawing(parts), bare));
  else if (/\.svg$/i.test(to)) await writeFile(to, svgOf(fileDrawing(parts), bare));
  else if (/[/\\]$/.test(to)) {
    await mkdir(to, { recursive: true });
    const files: string[] = [];
    const put = async (name: string, content: string | Uint8Array) => {
      files.push(join(to, name));
      await writeFile(files.at(-1)!, content);
    };
    for (const [i, part] of parts.entries()) {
      // numbered: two ids may differ by letters alone that no file name has
      const stem = `${String(i + 1).padStart(2, "0")}-${part.id.replace(/[^\p{L}\p{N}.-]+/gu, "-")}`;
      const drawing = fileDrawing([part]);
      await put(`${stem}.dxf`, dxfOf(drawing, bare));
      await put(`${stem}.svg`, svgOf(drawing, bare));
    }
    await put("templates.pdf", await pdf());
    return files;
  } else throw new InputError("wrong-format", { path: "--to" }, `"${to}" ends in no format that is written`, WANTED);
  return [to];
}

function facts(document: SceneDocument, options: VerbOptions): SheetFacts {
  return {
    title: "Templates",
    subject: document.title,
    date: options.date ?? new Date().toISOString().slice(0, 10),
    revision: revisionText(options.revision ?? "", fingerprint(canonicalJson(document))),
    units: "mm, full size",
    standing: "drawn",
    datum: "each part's own",
    cautions: CAUTIONS,
  };
}

/** ACROSS or ACROSS,DOWN: what the 100 mm bars measured. */
function correctionOf(measured: string | undefined): Correction {
  if (measured === undefined) return NO_CORRECTION;
  const [across, down, ...rest] = measured.split(",").map((text) => numberOf("measured", text, Number.NaN));
  if (across === undefined || rest.length > 0)
    throw new InputError(
      "wrong-value",
      { path: "--measured" },
      `"${measured}" does not fit`,
      "MM or ACROSS,DOWN, such as 97,99.5",
    );
  return { across: correctionFor(across, "--measured"), down: correctionFor(down ?? across, "--measured") };
}

function listed({ plates, wraps, square, canFold }: Templates) {
  const notes = (part: TemplatePart) => notesOf(part).map(({ text }) => text);
  return {
    plates: plates.map((plate) => {
      const { min, max } = boxAround(polygonOf(plate.outline, 0.01));
      return {
        id: plate.id,
        part: plate.of,
        thickness_mm: plate.thickness_mm,
        count: plate.count,
        sides: plate.sides,
        size_mm: [max[0] - min[0], max[1] - min[1]],
        holes: plate.holes.flatMap((hole) =>
          hole.kind === "circle" ? [{ centre_mm: hole.centre, diameter_mm: hole.diameter_mm }] : [],
        ),
        folds: plate.folds,
        kFactor: plate.kFactor,
        notes: notes(plate),
      };
    }),
    wraps: wraps.map((wrap) => ({
      id: wrap.id,
      part: wrap.of,
      diameter_mm: wrap.diameter_mm,
      wall_mm: wrap.wall_mm,
      fittedTo: wrap.fittedTo,
      edge_mm: wrap.edge_mm,
      edgesApart_mm: wrap.edgesApart_mm,
      cut_mm: wrap.cut,
      notes: notes(wrap),
    })),
    square,
    canFold,
  };
}

function told(name: string, { plates, wraps, square, canFold }: Templates): string[] {
  const block = (part: TemplatePart) => notesOf(part).map(({ text }, i) => `${i === 0 ? "" : "    "}${text}`);
  return [
    `${name}: templates`,
    ...[...plates, ...wraps].flatMap((part) => ["", ...block(part)]),
    ...(square.length > 0 ? ["", "Sawn square:"] : []),
    ...square.map(
      ({ id, fittedTo, along_mm }) => `  ${id}: against ${fittedTo.join(", ")}, ${mm(along_mm)} mm from its drawn end`,
    ),
    ...(canFold.length > 0 ? ["", `Could be folded from one plate (--fold): ${canFold.join(", ")}`] : []),
    "",
  ];
}
