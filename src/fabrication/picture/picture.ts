import type { PreparedCheck } from "../../check/check.ts";
import { type CoilLook, pairCoils } from "../../check/coilLook.ts";
import type { ModelBody } from "../../check/model.ts";
import type { TreeShelf } from "../../clearance/sweepShelf.ts";
import { bounds } from "../../geometry/measure.ts";
import type { Poll } from "../../maths/poll.ts";
import { applyPose, identityPose, type Pose } from "../../maths/pose.ts";
import { add, scale, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import type { Measure } from "../../scene/measures.ts";
import { ridesOfPoints } from "../../scene/pointRide.ts";
import type { Side } from "../../scene/scene.ts";
import { posesOf } from "../exchange/standing.ts";
import { COLUMN_mm, drawCallouts, type FlatGap } from "./callouts.ts";
import { coilMesh } from "./coil.ts";
import { TONES, type Tone } from "./colours.ts";
import { type DimensionsAsked, type DrawnDimension, dimensionsOf } from "./dimensions.ts";
import { crossings, datumLines } from "./guides.ts";
import {
  depthOf,
  drawAngle,
  drawRowed,
  drawStraight,
  type FlatLength,
  Labels,
  type RowedLength,
  rowed,
  rowsOn,
} from "./lengths.ts";
import { type BodyPoses, nearPairs, patchOf } from "./near.ts";
import { type Reach, type Rectangle, ratioFor, reachOf } from "./page.ts";
import { drawRaster } from "./raster.ts";
import { drawFoot, drawHead, MARGIN_mm, patterns, type SheetFacts } from "./sheet.ts";
import type { DrawnSurface } from "./soup.ts";
import { shadedBody, shadedPatch } from "./surfaces.ts";
import { axesOf, flatOf, isToScale, type Projection, type ViewName } from "./view.ts";
import type { PictureWords } from "./words.ts";

/** Where the wheels are, and the engine on its way from rest to a pose. */
export interface PictureState {
  readonly travel_mm: Readonly<Partial<Record<Side, number>>>;
  readonly pose: string;
  readonly share: number;
}

export interface PictureAsked {
  readonly view: ViewName;
  readonly state: PictureState;
  readonly width_px: number;
  readonly height_px: number;
  /** Pixels to an inch of paper. */
  readonly dpi: number;
  /** The car's millimetres for one of the paper's; null: the largest scale a rule can be used with at which all fits. */
  readonly ratio: number | null;
  readonly sides: readonly Side[];
  /** Ids of parts, or roles such as "tyre", of which only the outline is drawn. */
  readonly outlined: readonly string[];
  readonly without: readonly string[];
  /** Ids of parts that fill the picture; none: all that are drawn. */
  readonly around: readonly string[];
  readonly dimensions: DimensionsAsked;
  readonly datumId: string | null;
}

/** What a picture is drawn of: the check made ready, and the trees that are kept with it. */
export interface PictureSource {
  readonly document: SceneDocument;
  /** Pinned measures that may be asked for. */
  readonly measures: readonly Measure[];
  readonly prepared: PreparedCheck;
  readonly trees: TreeShelf;
}

export interface Picture {
  readonly width_px: number;
  readonly height_px: number;
  readonly pxPerPaperMm: number;
  /** Null where the view is not to scale. */
  readonly ratio: number | null;
  /** Where places of the car lie, in pixels. */
  readonly projection: Projection;
  /** The drawn parts on white: red, green, blue a pixel. */
  readonly rgb: Uint8Array;
  /** Lines and lettering over it, in millimetres of paper. */
  readonly overlay: string;
  readonly dimensions: readonly DrawnDimension[];
  /** Those that were asked for and lie outside what is drawn. */
  readonly outside: readonly DrawnDimension[];
}

export const MOST_px = 4096;
const LEAST_px = 320;
const MM_PER_INCH = 25.4;
/** Numbers of patches among those of the surfaces. */
const FIRST_PATCH = 20_000;
/** Round parts that fill the picture there is room for so much of their size. */
const AROUND_SHARE = 0.1;
/** What lies on the edge lies within, mm of paper. */
const HAIR_mm = 0.01;

/** Draws the car as it stands in one state. Throws InputError for what is asked that the scene or the sheet does not have. */
export function drawPicture(source: PictureSource, asked: PictureAsked, words: PictureWords, poll?: Poll): Picture {
  for (const px of [asked.width_px, asked.height_px]) {
    if (!(px >= LEAST_px && px <= MOST_px))
      throw new InputError("wrong-value", { path: "size" }, `${px} pixels`, `from ${LEAST_px} to ${MOST_px} each way`);
  }
  const { document, measures, prepared, trees } = source;
  const { scene, bodies } = prepared;
  const datum = asked.datumId === null ? null : scene.datums.find(({ id }) => id === asked.datumId);
  if (datum === undefined)
    throw new InputError(
      "missing-id",
      { path: "datum" },
      `no datum is called "${asked.datumId}"`,
      scene.datums.map(({ id }) => id).join(", ") || "a scene with datums",
    );
  const mounts = new Map(scene.sides.map((side) => [side, posesOf(scene, side, asked.state)] as const));
  const poses = new Map<string, Pose>();
  for (const { key, side, mount } of bodies) {
    const pose = mounts.get(side === "both" ? scene.sides[0]! : side)?.get(mount);
    if (pose) poses.set(key, pose);
  }
  const shown = shownBodies(bodies, poses, asked);
  const drawn = new Set(bodiesIn(shown).map(({ key }) => key));
  const near = nearPairs(prepared, poses, trees, poll).filter(
    ({ planned: { first, second } }) => drawn.has(first.key) && drawn.has(second.key),
  );
  const measured = { scene, poses, mounts, rides: ridesOfPoints(document), prepared, trees, datum, drawn, near };
  const dimensions = dimensionsOf(asked.dimensions, measures, measured, asked.view, words);

  const numbers = new Map(bodies.map(({ key }, i) => [key, i + 1]));
  const surface = (body: ModelBody): DrawnSurface => ({
    mesh: shadedBody(body),
    pose: poses.get(body.key)!,
    number: numbers.get(body.key)!,
  });
  const coils = shown.coils.map(
    (coil): DrawnSurface => ({
      mesh: coilMesh(coil, poses.get(coil.upper.key)!, poses.get(coil.lower.key)!),
      pose: identityPose(),
      number: numbers.get(coil.upper.key)!,
    }),
  );
  const parts = [...shown.solid.map(surface), ...coils];
  const outlined = shown.outlined.map(surface);
  const patches: DrawnSurface[] = [];
  const required_mm = new Map<number, number>();
  const curves: Float32Array[] = [];
  for (const [i, gap] of near.entries()) {
    poll?.();
    const { first, second, sweep } = gap.planned;
    const patch = patchOf(gap, poses, trees);
    curves.push(...patch.crossing);
    for (const [k, body] of [first, second].entries()) {
      const number = FIRST_PATCH + 2 * i + k;
      patches.push({ ...shadedPatch(k === 0 ? patch.a : patch.b), pose: poses.get(body.key)!, number });
      required_mm.set(number, sweep.required_mm);
    }
  }

  const pxPerPaperMm = asked.dpi / MM_PER_INCH;
  const page = { width: asked.width_px / pxPerPaperMm, height: asked.height_px / pxPerPaperMm };
  const facts: SheetFacts = {
    ratio: isToScale(asked.view) ? 1 : null,
    dpi: Math.round(asked.dpi),
    legend: {
      tones: (Object.keys(TONES) as Tone[]).filter((tone) => shown.solid.some((body) => toneOf(body) === tone)),
      hasOutlined: outlined.length > 0,
      hasClash: near.some(({ verdict }) => verdict === "clash"),
      hasTight: near.some(({ verdict }) => verdict === "tight"),
    },
  };
  const head = drawHead(words, page.width);
  const top = head.y;
  const bottom = drawFoot(facts, words, page.width, page.height).y;
  const room: Rectangle = { x: MARGIN_mm, y: top, width: page.width - 2 * MARGIN_mm, height: bottom - top };
  const laid = layOut(asked, dimensions, room, reachOfAll(asked, shown, poses, dimensions));

  const { area, projection } = laid;
  const within = dimensions.filter((one) => isWithin(one, projection, area));
  const corner = { x: Math.round(area.x * pxPerPaperMm), y: Math.round(area.y * pxPerPaperMm) };
  const inner = {
    width: Math.floor(area.width * pxPerPaperMm),
    height: Math.floor(area.height * pxPerPaperMm),
  };
  const inPixels: Projection = {
    ...projection,
    originX: projection.originX * pxPerPaperMm,
    originY: projection.originY * pxPerPaperMm,
    perMm: projection.perMm * pxPerPaperMm,
  };
  const raster = drawRaster({
    width_px: inner.width,
    height_px: inner.height,
    projection: { ...inPixels, originX: inPixels.originX - corner.x, originY: inPixels.originY - corner.y },
    pxPerPaperMm,
    parts,
    outlined,
    patches,
    required_mm,
    colours: new Map(
      [...shown.solid, ...shown.coils.map(({ upper }) => upper)].map((body) => [
        numbers.get(body.key)!,
        TONES[toneOf(body)],
      ]),
    ),
    ...(poll ? { poll } : {}),
  });
  const rgb = new Uint8Array(3 * asked.width_px * asked.height_px).fill(255);
  for (let row = 0; row < inner.height; row++) {
    const line = raster.subarray(3 * row * inner.width, 3 * (row + 1) * inner.width);
    rgb.set(line, 3 * ((corner.y + row) * asked.width_px + corner.x));
  }
  const ratio = isToScale(asked.view) ? laid.ratio : null;
  const foot = drawFoot({ ...facts, ratio }, words, page.width, page.height);
  const overlay = [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${page.width}mm" height="${page.height}mm" viewBox="0 0 ${page.width} ${page.height}">`,
    patterns(),
    datumLines(asked.view, projection, area),
    crossings(curves, projection, area),
    head.svg,
    foot.svg,
    drawDimensions(laid, within),
    "</svg>",
  ].join("");
  return {
    width_px: asked.width_px,
    height_px: asked.height_px,
    pxPerPaperMm,
    ratio,
    projection: inPixels,
    rgb,
    overlay,
    dimensions: within,
    outside: dimensions.filter((one) => !within.includes(one)),
  };
}

interface ShownBodies {
  readonly solid: readonly ModelBody[];
  readonly outlined: readonly ModelBody[];
  /** Springs, which are checked by the room that they take and drawn as wire. */
  readonly coils: readonly CoilLook[];
}

function bodiesIn({ solid, outlined, coils }: ShownBodies): ModelBody[] {
  return [...solid, ...outlined, ...coils.flatMap(({ upper, lower }) => [upper, lower])];
}

function toneOf({ group, look }: ModelBody): Tone {
  return look === "tyre" ? "rubber" : group;
}

function shownBodies(bodies: readonly ModelBody[], poses: BodyPoses, asked: PictureAsked): ShownBodies {
  const isCalled = (body: ModelBody, names: readonly string[]): boolean =>
    names.includes(body.id) || (body.role !== null && names.includes(body.role));
  for (const [path, names] of Object.entries({
    outlined: asked.outlined,
    without: asked.without,
    around: asked.around,
  })) {
    const strange = names.find((name) => !bodies.some((body) => isCalled(body, [name])));
    if (strange !== undefined)
      throw new InputError(
        "missing-id",
        { path },
        `no part is called "${strange}"`,
        `one of ${[...new Set(bodies.map(({ id }) => id))].join(", ")}`,
      );
  }
  const standing = bodies.filter(
    (body) =>
      poses.has(body.key) &&
      (body.side === "both" || asked.sides.includes(body.side)) &&
      !isCalled(body, asked.without),
  );
  const isOutlined = (body: ModelBody) => isCalled(body, asked.outlined);
  const coils = pairCoils(standing.filter((body) => !isOutlined(body)));
  const isCoil = (body: ModelBody) => coils.some(({ upper, lower }) => body === upper || body === lower);
  const found = {
    solid: standing.filter((body) => !isOutlined(body) && !isCoil(body)),
    outlined: standing.filter(isOutlined),
    coils,
  };
  if (standing.length === 0)
    throw new InputError("missing-id", { path: "without" }, "nothing is left to be drawn", "at least one part");
  return found;
}

function reachOfAll(
  asked: PictureAsked,
  shown: ShownBodies,
  poses: BodyPoses,
  dimensions: readonly DrawnDimension[],
): Reach {
  const all = bodiesIn(shown);
  const axes = axesOf(asked.view);
  const isAround = asked.around.length > 0;
  const filling = isAround
    ? all.filter(({ id, role }) => asked.around.includes(id) || asked.around.includes(role ?? ""))
    : all;
  const boxes = filling.map((body) => boxCorners(body, poses.get(body.key)!));
  const ends = isAround ? [] : dimensions.flatMap(endsOf);
  const reach = reachOf([...boxes.flat(), ...ends], axes);
  if (!reach)
    throw new InputError("missing-id", { path: "around" }, "none of these parts is drawn", "a part that is drawn");
  if (!isAround) return reach;
  const [across, upright] = [(reach.right - reach.left) * AROUND_SHARE, (reach.high - reach.low) * AROUND_SHARE];
  return {
    left: reach.left - across,
    right: reach.right + across,
    low: reach.low - upright,
    high: reach.high + upright,
  };
}

/** Corners of the box about a body where it stands: no vertex lies beyond them. */
function boxCorners({ solid }: ModelBody, pose: Pose): Vec3[] {
  const { min, max } = bounds(solid);
  return Array.from({ length: 8 }, (_, c) =>
    applyPose(pose, [(c & 1 ? max : min)[0], (c & 2 ? max : min)[1], (c & 4 ? max : min)[2]]),
  );
}

/** How everything lies on the sheet, mm of paper. */
interface LaidOut {
  readonly ratio: number;
  readonly projection: Projection;
  /** Where the car is drawn. */
  readonly area: Rectangle;
  readonly columns: Readonly<Record<"left" | "right", Rectangle>>;
  readonly rows: readonly RowedLength[];
}

function layOut(asked: PictureAsked, dimensions: readonly DrawnDimension[], room: Rectangle, reach: Reach): LaidOut {
  const axes = axesOf(asked.view);
  const middle = { x: (reach.left + reach.right) / 2, y: (reach.low + reach.high) / 2 };
  const about = add(scale(axes.right, middle.x), scale(axes.up, middle.y));
  // which column a callout stands in hangs on the car alone, so that there is no need to know the scale
  const wide = { left: false, right: false };
  for (const one of dimensions) if (one.kind === "gap") wide[columnOf(one, axes.right, middle.x)] = true;
  const [left, right] = [wide.left ? COLUMN_mm + 3 : 0, wide.right ? COLUMN_mm + 3 : 0];
  const within = (edges: Record<"top" | "bottom" | "left" | "right", number>): Rectangle => ({
    x: room.x + left + edges.left,
    y: room.y + edges.top,
    width: room.width - left - right - edges.left - edges.right,
    height: room.height - edges.top - edges.bottom,
  });
  let edges = { top: 0, bottom: 0, left: 0, right: 0 };
  for (let round = 0; ; round++) {
    const area = within(edges);
    const ratio = ratioOf(asked, reach, area);
    const projection: Projection = {
      axes,
      about,
      originX: area.x + area.width / 2,
      originY: area.y + area.height / 2,
      perMm: 1 / ratio,
    };
    const lengths = dimensions.flatMap((one): FlatLength[] =>
      one.kind === "length" && isWithin(one, projection, area)
        ? [{ from: flatOf(projection, one.from), to: flatOf(projection, one.to), lies: one.lies, text: one.text }]
        : [],
    );
    const rows = rowed(lengths, area);
    const depth = (edge: "top" | "bottom" | "left" | "right") => Math.max(edges[edge], depthOf(rowsOn(edge, rows)));
    const wanted = { top: depth("top"), bottom: depth("bottom"), left: depth("left"), right: depth("right") };
    const isRoomy = Object.entries(wanted).every(([edge, mm]) => mm === edges[edge as keyof typeof edges]);
    if (!isRoomy && round < 6) {
      edges = wanted;
      continue;
    }
    const column = (x: number): Rectangle => ({ x, y: room.y, width: COLUMN_mm, height: room.height });
    return {
      ratio,
      projection,
      area,
      columns: { left: column(room.x), right: column(room.x + room.width - COLUMN_mm) },
      rows,
    };
  }
}

/** Whether all of what is pointed at lies where the car is drawn. */
function isWithin(one: DrawnDimension, projection: Projection, { x, y, width, height }: Rectangle): boolean {
  return endsOf(one).every((end) => {
    const flat = flatOf(projection, end);
    const [across, down] = [flat.x - x, flat.y - y];
    return across >= -HAIR_mm && across <= width + HAIR_mm && down >= -HAIR_mm && down <= height + HAIR_mm;
  });
}

function endsOf(one: DrawnDimension): Vec3[] {
  return one.kind === "angle" ? [one.from, one.at, one.to] : [one.from, one.to];
}

function columnOf({ from, to }: { from: Vec3; to: Vec3 }, right: Vec3, middle: number): "left" | "right" {
  const across = (p: Vec3) => p[0] * right[0] + p[1] * right[1] + p[2] * right[2];
  return (across(from) + across(to)) / 2 < middle ? "left" : "right";
}

function ratioOf({ ratio, around }: PictureAsked, reach: Reach, area: Rectangle): number {
  const [width, height] = [reach.right - reach.left, reach.high - reach.low];
  const fits = area.width > 10 && area.height > 10 ? ratioFor(width, height, area) : null;
  const tooSmall = (wanted: string) =>
    new InputError(
      "too-large",
      { path: "scale" },
      `what is drawn takes ${Math.round(width)} by ${Math.round(height)} mm of the car, and the sheet has room for ${Math.max(0, Math.round(area.width))} by ${Math.max(0, Math.round(area.height))} mm beside its words`,
      wanted,
    );
  if (ratio === null) {
    if (fits === null) throw tooSmall("more pixels, fewer dots an inch, or fewer dimensions");
    return fits;
  }
  const isOver = width / ratio > area.width || height / ratio > area.height;
  if (isOver && around.length === 0)
    throw tooSmall(
      fits === null ? "a larger sheet" : `1:${fits} or smaller, a larger sheet, or single parts to draw around`,
    );
  return ratio;
}

function drawDimensions({ projection, area, columns, rows }: LaidOut, dimensions: readonly DrawnDimension[]): string {
  const labels = new Labels();
  const parts = rows.map((row) => drawRowed(row, area));
  const gaps: Record<"left" | "right", FlatGap[]> = { left: [], right: [] };
  const middle = area.x + area.width / 2;
  for (const one of dimensions) {
    const [from, to] = [flatOf(projection, one.from), flatOf(projection, one.to)];
    if (one.kind === "length") {
      if (one.lies === "straight") parts.push(drawStraight({ ...one, from, to }, labels));
    } else if (one.kind === "angle") parts.push(drawAngle(from, flatOf(projection, one.at), to, one.text, labels));
    else gaps[(from.x + to.x) / 2 < middle ? "left" : "right"].push({ ...one, from, to });
  }
  for (const side of ["left", "right"] as const) {
    parts.push(drawCallouts(gaps[side], columns[side], side === "left"));
  }
  return parts.join("");
}
