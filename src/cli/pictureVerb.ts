import { writeFile } from "node:fs/promises";
import type { CheckResult, StateAt } from "../check/result.ts";
import { TreeShelf } from "../clearance/sweepShelf.ts";
import { PAPER_mm } from "../fabrication/paper/sizes.ts";
import type { DimensionEnd, DrawnDimension, GapAsked, LengthAsked } from "../fabrication/picture/dimensions.ts";
import { pngOfPicture, svgOfPicture } from "../fabrication/picture/files.ts";
import { drawPicture, type Picture, type PictureAsked } from "../fabrication/picture/picture.ts";
import { isToScale, VIEW_NAMES, type ViewName } from "../fabrication/picture/view.ts";
import { englishWords } from "../fabrication/picture/words.ts";
import type { SceneDocument } from "../scene/document.ts";
import { InputError } from "../scene/error.ts";
import type { Scene, Side } from "../scene/scene.ts";
import { Machine, type Watch } from "../work/machine.ts";
import { choiceOf, paperOf, unitOf } from "./choice.ts";
import { drawingTools } from "./drawingTools.ts";
import { loadScene } from "./loadScene.ts";
import { numberOf, tripleOf } from "./numbers.ts";
import type { OptionName, VerbOptions, VerbOutcome } from "./verb.ts";

export const PICTURE_OPTIONS = [
  "to",
  "view",
  "at",
  "pose",
  "side",
  "scale",
  "paper",
  "portrait",
  "size",
  "dpi",
  "dimension",
  "gap",
  "measure",
  "outline",
  "without",
  "around",
  "datum",
  "units",
  "revision",
  "date",
  "built",
  "note",
] as const satisfies readonly OptionName[];

const PATIENT: Watch = { onProgress() {}, isStopped: () => false, breathe: () => Promise.resolve() };
const MM_PER_INCH = 25.4;

/** `picture`: the car as it stands in one state, to scale, with dimensions and gaps, as PNG or SVG; needs no screen. */
export async function runPicture(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const { to } = options;
  if (!to || !/\.(png|svg)$/i.test(to))
    throw new InputError(
      "wrong-format",
      { path: "--to" },
      to ? `"${to}" ends in no picture's name` : "no file is named",
      "FILE.png or FILE.svg",
    );
  const { name, document, meshFiles } = await loadScene(path);
  const trees = new TreeShelf();
  const machine = new Machine(trees);
  try {
    const prepared = machine.prepare(document, meshFiles);
    const gaps = gapsOf(options.gap ?? []);
    const state =
      options.at === "worst"
        ? worstOf(await machine.check(prepared, name, PATIENT), gaps.gaps)
        : { travel_mm: numberOf("at", options.at, 0), pose: options.pose ?? "rest" };
    const asked = askedOf(document, prepared.scene, options, state, gaps);
    const words = englishWords({
      ...asked,
      ...asked.state,
      title: document.title,
      note: options.note ?? null,
      date: options.date ?? new Date().toISOString().slice(0, 10),
      standing: options.built ? "built" : "drawn",
      revision: options.revision ?? null,
      unit: unitOf(options),
    });
    const picture = drawPicture({ document, measures: document.measures ?? [], prepared, trees }, asked, words);
    if (/\.png$/i.test(to)) await writeFile(to, await pngOfPicture(picture, await drawingTools()));
    else await writeFile(to, svgOfPicture(picture));
    const facts = { scene: name, file: to, ...factsOf(asked, state, picture) };
    return { output: options.json ? `${JSON.stringify(facts)}\n` : tell(facts), status: 0 };
  } catch (error) {
    throw error instanceof InputError ? error.in(path) : error;
  }
}

interface GapsAsked {
  readonly gaps: readonly GapAsked[];
  readonly nearGaps: "all" | "worst" | "none";
}

function askedOf(
  document: SceneDocument,
  scene: Scene,
  options: VerbOptions,
  { travel_mm, pose, share = 1 }: StateAt,
  { gaps, nearGaps }: GapsAsked,
): PictureAsked {
  const view = choiceOf<ViewName>("view", options.view, VIEW_NAMES, "rear");
  const side = choiceOf<Side | "both">("side", options.side, ["left", "right", "both"], "both");
  const sides = scene.sides.filter((each) => side === "both" || each === side);
  const isSideOn = view === "left" || view === "right";
  const pinned = (document.measures ?? []).filter(({ hidden }) => !hidden).map(({ id }) => id);
  const measures = options.measure ?? pinned;
  return {
    view,
    state: { travel_mm: Object.fromEntries(scene.sides.map((each) => [each, travel_mm])), pose, share },
    ...sizeOf(options),
    ratio: ratioOf(options.scale, view),
    sides,
    // a wheel hides all that lies inboard of it
    outlined: options.outline ?? (isSideOn ? ["tyre", "rim"] : []),
    without: options.without ?? [],
    around: options.around ?? [],
    dimensions: {
      lengths: (options.dimension ?? []).map(lengthOf),
      gaps,
      nearGaps,
      measures: measures.includes("none") ? [] : measures,
    },
    datumId: options.datum ?? null,
  };
}

/** A whole sheet, lying unless it shall stand; or so many pixels, across as much paper as a lying sheet has. */
function sizeOf(options: VerbOptions): Pick<PictureAsked, "width_px" | "height_px" | "dpi"> {
  const paper = paperOf(options);
  const { width: short, height: long } = PAPER_mm[paper];
  const [across, down] = options.portrait ? [short, long] : [long, short];
  if (options.size === undefined) {
    const dpi = numberOf("dpi", options.dpi, 300, 30);
    return {
      width_px: Math.round((across / MM_PER_INCH) * dpi),
      height_px: Math.round((down / MM_PER_INCH) * dpi),
      dpi,
    };
  }
  const [, width, height] = /^(\d+)x(\d+)$/.exec(options.size) ?? [];
  if (!width || !height)
    throw new InputError(
      "wrong-value",
      { path: "--size" },
      `"${options.size}" is no size`,
      "WIDTHxHEIGHT in pixels, such as 1920x1080",
    );
  const dpi = numberOf("dpi", options.dpi, Math.round((Number(width) / across) * MM_PER_INCH), 30);
  return { width_px: Number(width), height_px: Number(height), dpi };
}

function ratioOf(text: string | undefined, view: ViewName): number | null {
  if (text === undefined) return null;
  if (!isToScale(view))
    throw new InputError(
      "wrong-value",
      { path: "--scale" },
      `the ${view} view has no scale`,
      "another view, or no --scale",
    );
  const ratio = Number(/^1:(\d+(?:\.\d+)?)$/.exec(text)?.[1]);
  if (!(ratio > 0))
    throw new InputError("wrong-value", { path: "--scale" }, `"${text}" is no scale`, "1:N, such as 1:5");
  return ratio;
}

/** FROM/TO, or FROM/TO=forward|out|up. */
function lengthOf(text: string): LengthAsked {
  const [, ends, along = "straight"] = /^(.*?)(?:=(forward|out|up))?$/.exec(text)!;
  const [from, to, ...more] = ends!.split("/");
  if (!from || !to || more.length > 0)
    throw new InputError(
      "wrong-value",
      { path: "--dimension" },
      `"${text}" does not fit`,
      "FROM/TO, or FROM/TO=forward, out or up; each end a hard point (NAME, NAME@right) or a place F,O,U",
    );
  return { from: endOf(from), to: endOf(to), along: along as LengthAsked["along"] };
}

function endOf(text: string): DimensionEnd {
  if (/^[-+.\d]/.test(text) && text.includes(",")) return { place: tripleOf("dimension", text) };
  const [, point, side] = /^(.*?)(?:@(left|right))?$/.exec(text)!;
  return side === undefined ? { point: point! } : { point: point!, side: side as Side };
}

function gapsOf(texts: readonly string[]): GapsAsked {
  const named = texts.filter((text) => text !== "all" && text !== "worst");
  const gaps = named.map((text): GapAsked => {
    const [, a, b, side] = /^([^/]+)\/([^/]+?)(?:@(left|right))?$/.exec(text) ?? [];
    if (!a || !b)
      throw new InputError("wrong-value", { path: "--gap" }, `"${text}" does not fit`, "A/B, A/B@left, worst or all");
    return side ? { a, b, side: side as Side } : { a, b };
  });
  return { gaps, nearGaps: texts.includes("all") ? "all" : texts.includes("worst") ? "worst" : "none" };
}

/** Where the worst pair is at its worst, of those that are asked for or of all. */
function worstOf({ pairs }: CheckResult, gaps: readonly GapAsked[]): StateAt {
  const asked = pairs.filter(
    ({ a, b, side, verdict }) =>
      (gaps.length === 0 && verdict !== "accepted") ||
      gaps.some(
        (gap) =>
          [gap.a, gap.b].sort().join("/") === [a, b].sort().join("/") &&
          (!gap.side || side === "both" || side === gap.side),
      ),
  );
  const worst = asked.reduce<(typeof asked)[number] | null>(
    (least, pair) => (least && least.clearance_mm <= pair.clearance_mm ? least : pair),
    null,
  );
  if (!worst)
    throw new InputError("missing-id", { path: "--gap" }, "no such pair is checked", "two parts of which one moves");
  return worst.at;
}

function factsOf({ view, width_px, height_px, dpi }: PictureAsked, state: StateAt, picture: Picture) {
  return {
    view,
    state,
    width_px,
    height_px,
    dpi,
    scale: picture.ratio === null ? null : `1:${picture.ratio}`,
    px_per_mm: picture.ratio === null ? null : picture.projection.perMm,
    dimensions: picture.dimensions.map(told),
    outside: picture.outside.map(told),
  };
}

function told(one: DrawnDimension) {
  return one.kind === "gap" ? { kind: one.kind, of: one.title, text: one.text } : { kind: one.kind, text: one.text };
}

function tell(facts: { readonly file: string } & ReturnType<typeof factsOf>): string {
  const { file, view, width_px, height_px, scale, dpi, dimensions, outside } = facts;
  const lines = [
    `${file}: ${view} view, ${scale ?? "not to scale"}, ${width_px} by ${height_px} pixels, ${dpi} to an inch`,
    ...dimensions.map((one) => `  ${nameOf(one)}`),
    ...outside.map((one) => `  not in the picture, which it lies outside of: ${nameOf(one)}`),
  ];
  return `${lines.join("\n")}\n`;
}

function nameOf(one: ReturnType<typeof told>): string {
  return "of" in one ? `${one.of}: ${one.text}` : one.text;
}
