import { readFileSync } from "node:fs";
import { Resvg } from "@resvg/resvg-wasm";
import { decode } from "fast-png";
import { beforeAll, describe, expect, it } from "vitest";
import { pairCoils } from "../../src/check/coilLook.ts";
import { TreeShelf } from "../../src/clearance/sweepShelf.ts";
import { drawingTools } from "../../src/cli/drawingTools.ts";
import { coilMesh } from "../../src/fabrication/picture/coil.ts";
import { pngOfPicture, svgOfPicture } from "../../src/fabrication/picture/files.ts";
import { drawPicture, type Picture, type PictureAsked } from "../../src/fabrication/picture/picture.ts";
import { readyTools } from "../../src/fabrication/picture/rasterise.ts";
import { axesOf, flatOf, VIEW_NAMES, type ViewName } from "../../src/fabrication/picture/view.ts";
import { type EnglishFacts, englishWords } from "../../src/fabrication/picture/words.ts";
import { bounds } from "../../src/geometry/measure.ts";
import { identityPose } from "../../src/maths/pose.ts";
import { cross, distance, dot, subtract, type Vec3 } from "../../src/maths/vec3.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { InputError } from "../../src/scene/error.ts";
import { readScene } from "../../src/scene/read.ts";
import { Machine } from "../../src/work/machine.ts";
import { makePicture } from "../../src/work/pictureRoom.ts";
import { agreesWithin } from "../truth/agreement.ts";

const NAME = "3-double-wishbones-toe-link.json";
const scene = readScene(readFileSync(new URL(`../../scenes/${NAME}`, import.meta.url), "utf8"), NAME);
/** Two balls that stand free of all else, and where. */
const BALLS: Readonly<Record<string, Vec3>> = { "ball-a": [-350, 820, 120], "ball-b": [450, 260, 760] };
const DIAMETER_mm = 60;
const document: SceneDocument = {
  ...scene,
  bodies: [
    ...scene.bodies,
    ...Object.entries(BALLS).map(([id, at]) => ({
      id,
      on: "chassis",
      shape: { kind: "sphere" as const, at: [...at] as [number, number, number], diameter_mm: DIAMETER_mm },
    })),
  ],
};
const trees = new TreeShelf();
const machine = new Machine(trees);
const prepared = machine.prepare(document, new Map());
const source = { document, measures: [], prepared, trees };
const ids = [...new Set(prepared.bodies.map(({ id }) => id))];
const allBut = (...kept: string[]) => ids.filter((id) => !kept.includes(id));

const USUAL: PictureAsked = {
  view: "rear",
  state: { travel_mm: { left: 0, right: 0 }, pose: "rest", share: 1 },
  // A4 lying at 100 dots an inch
  width_px: 1169,
  height_px: 827,
  dpi: 100,
  ratio: null,
  sides: ["left", "right"],
  outlined: [],
  without: [],
  around: [],
  dimensions: { lengths: [], gaps: [], nearGaps: "none", measures: [] },
  datumId: null,
};
const SAID: Omit<EnglishFacts, "view" | "travel_mm" | "pose" | "share" | "datumId"> = {
  title: "Corner",
  note: null,
  date: "2026-01-02",
  standing: "drawn",
  revision: "C",
  unit: "mm",
};

function draw(asked: Partial<PictureAsked>, said: Partial<EnglishFacts> = {}): Picture {
  const all = { ...USUAL, ...asked };
  return drawPicture(source, all, englishWords({ ...SAID, ...all, ...all.state, ...said }));
}

/** Box of what is not white in red, green, blue. */
function inked({ rgb, width_px }: Pick<Picture, "rgb" | "width_px">) {
  const box = { left: Infinity, right: -Infinity, top: Infinity, bottom: -Infinity };
  for (let i = 0; i < rgb.length; i += 3) {
    if (rgb[i]! + rgb[i + 1]! + rgb[i + 2]! > 700) continue;
    const [x, y] = [(i / 3) % width_px, Math.floor(i / 3 / width_px)];
    box.left = Math.min(box.left, x);
    box.right = Math.max(box.right, x + 1);
    box.top = Math.min(box.top, y);
    box.bottom = Math.max(box.bottom, y + 1);
  }
  return box;
}

function middle({ left, right, top, bottom }: ReturnType<typeof inked>) {
  return { x: (left + right) / 2, y: (top + bottom) / 2 };
}

function fault(asked: Partial<PictureAsked>): InputError {
  try {
    draw(asked);
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error("it was drawn");
}

/** The pixels of a PNG by another library than wrote it. */
function pixelsOf(png: Uint8Array, width: number, height: number): Uint8Array {
  const data = Buffer.from(png).toString("base64");
  const image = `<image width="${width}" height="${height}" href="data:image/png;base64,${data}"/>`;
  const drawing = new Resvg(
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}">${image}</svg>`,
  );
  return drawing.render().pixels;
}

let tools: Awaited<ReturnType<typeof drawingTools>>;
beforeAll(async () => {
  tools = await drawingTools();
  await readyTools(tools);
});

describe("a picture's scale", () => {
  it.each(["rear", "front", "left", "right", "plan", "below"] as const)("is true across and up the %s view", (view) => {
    const one = draw({ view, ratio: 10, without: allBut("ball-a"), around: [] });
    const two = draw({ view, ratio: 10, without: allBut("ball-b") });
    const both = draw({ view, ratio: 10, without: allBut("ball-a", "ball-b") });
    // 10 mm of the car to the millimetre of paper, 100 dots to 25.4 mm
    const perMm = 100 / 25.4 / 10;
    for (const picture of [one, two]) {
      const { left, right, top, bottom } = inked(picture);
      // the outline lies half outside: 0.4 mm of paper in all
      const size = DIAMETER_mm * perMm + 0.4 * (100 / 25.4);
      expect(Math.abs(right - left - size)).toBeLessThan(2);
      expect(Math.abs(bottom - top - size)).toBeLessThan(2);
    }
    // what lies apart by so many millimetres in the car does so in the picture
    const { right, up } = axesOf(view);
    const apart = subtract(BALLS["ball-b"]!, BALLS["ball-a"]!);
    const box = inked(both);
    const ball = DIAMETER_mm * perMm + 0.4 * (100 / 25.4);
    expect(Math.abs(box.right - box.left - ball - Math.abs(dot(right, apart)) * perMm)).toBeLessThan(2);
    expect(Math.abs(box.bottom - box.top - ball - Math.abs(dot(up, apart)) * perMm)).toBeLessThan(2);
  });

  it("tells the scale at which it came out: what lies 545 mm apart, in pixels of 100 to the inch", async () => {
    const asked = { ...USUAL, without: allBut("ball-a", "ball-b") };
    const words = englishWords({ ...SAID, ...asked, ...asked.state });
    const request = { document, measures: [], asked, words, format: "svg", tools: { program: "", fonts: [] } } as const;
    const made = await makePicture(prepared, trees, request, () => {});
    const { left, right } = inked(draw(asked));
    // from the rear across, less one ball's diameter and its outline of 0.4 mm
    const apart_mm = Math.abs(BALLS["ball-b"]![1] - BALLS["ball-a"]![1]);
    const shown_mm = (right - left) * (25.4 / 100) - 0.4;
    agreesWithin("madeRatio", (apart_mm + DIAMETER_mm) / shown_mm / made.ratio!, 1, 0.03);
  });

  it("puts places where it says they lie", () => {
    for (const view of VIEW_NAMES) {
      const picture = draw({ view, without: allBut("ball-a") });
      const drawn = middle(inked(picture));
      const said = flatOf(picture.projection, BALLS["ball-a"]!);
      agreesWithin("pictureScale", Math.hypot(drawn.x - said.x, drawn.y - said.y), 0, 1);
    }
  });

  it("looks the way the view is called: a right-handed car seen from outside", () => {
    const eye: Record<Exclude<ViewName, "corner">, Vec3> = {
      // x forward, y left, z up (ISO 8855): the eye is behind, before, to the left, …
      rear: [-1, 0, 0],
      front: [1, 0, 0],
      left: [0, 1, 0],
      right: [0, -1, 0],
      plan: [0, 0, 1],
      below: [0, 0, -1],
    };
    for (const [view, towards] of Object.entries(eye)) {
      const axes = axesOf(view as ViewName);
      expect(distance(axes.towards, towards)).toBe(0);
      expect(distance(cross(axes.right, axes.up), towards)).toBe(0);
    }
    const { right, up, towards } = axesOf("corner");
    expect(distance(cross(right, up), towards)).toBeLessThan(1e-12);
  });

  it("takes the largest round scale at which all fits, and refuses one at which it does not", () => {
    const { ratio } = draw({});
    expect(ratio).not.toBeNull();
    const larger = fault({ ratio: ratio! / 2 });
    expect(larger.code).toBe("too-large");
    expect(larger.wanted).toContain(`1:${ratio}`);
    // parts to draw around may run out of the picture
    expect(draw({ ratio: 2, around: ["knuckle"] }).ratio).toBe(2);
    expect(draw({ view: "corner" }).ratio).toBeNull();
  });

  it("has a bar whose fields are as long as they are numbered, in a PNG that prints at its own size", async () => {
    const picture = draw({ ratio: 10 });
    const png = await pngOfPicture(picture, tools);
    const { width, height, resolution } = decode(png);
    expect([width, height]).toEqual([1169, 827]);
    // PNG specification, 11.3.5.3: pixels a metre, unit 1; 100 / 0.0254 = 3937.0
    expect(resolution).toEqual({ x: 3937, y: 3937, unit: 1 });
    const pixels = pixelsOf(png, width, height);
    // the bar is the only thing with three dark runs of one length above 40 px in a row below the car
    const field_px = (200 / 10) * (100 / 25.4);
    const rows = Array.from({ length: Math.floor(height * 0.25) }, (_, i) => darkRuns(pixels, width, height - 1 - i));
    const bar = rows.find((runs) => runs.filter(({ length }) => Math.abs(length - field_px) < 3).length === 3);
    expect(bar).toBeDefined();
    const [first, second, third] = bar!.filter(({ length }) => Math.abs(length - field_px) < 3);
    expect(Math.abs(second!.from - first!.from - 2 * field_px)).toBeLessThanOrEqual(1);
    expect(Math.abs(third!.from - first!.from - 4 * field_px)).toBeLessThanOrEqual(1);
    expect(picture.overlay).toContain(">1000 mm</text>");
  });

  it("goes up to 4096 pixels each way and no further", () => {
    expect(fault({ width_px: 4097 }).path).toBe("size");
    const picture = draw({ width_px: 4096, height_px: 2896, dpi: 350, ratio: 10, without: allBut("ball-a") });
    expect(picture.rgb.length).toBe(3 * 4096 * 2896);
    const { left, right } = inked(picture);
    expect(Math.abs(right - left - (DIAMETER_mm / 10 + 0.4) * (350 / 25.4))).toBeLessThan(2);
  });
});

function darkRuns(pixels: Uint8Array, width: number, row: number): { from: number; length: number }[] {
  const runs: { from: number; length: number }[] = [];
  for (let x = 0, from = -1; x <= width; x++) {
    const at = 4 * (row * width + x);
    const isDark = x < width && pixels[at]! + pixels[at + 1]! + pixels[at + 2]! < 300;
    if (isDark && from < 0) from = x;
    if (!isDark && from >= 0) {
      runs.push({ from, length: x - from });
      from = -1;
    }
  }
  return runs;
}

describe("what a picture shows", () => {
  it("has the nearer part before the farther one", () => {
    const tyreAlone = draw({ view: "left", ratio: 10, without: allBut("tyre"), sides: ["left"] });
    const { x, y } = flatOf(tyreAlone.projection, [250, 740, 300]);
    const at = (picture: Picture) => 3 * (Math.round(y) * picture.width_px + Math.round(x));
    const colour = (picture: Picture) => [...picture.rgb.subarray(at(picture), at(picture) + 3)];
    const all = draw({ view: "left", ratio: 10, without: allBut("tyre", "upper"), sides: ["left"] });
    // from the left the tyre hides the arm behind it, wherever the sheet puts the two
    expect(flatOf(all.projection, [250, 740, 300])).toEqual(flatOf(tyreAlone.projection, [250, 740, 300]));
    expect(colour(all)).toEqual(colour(tyreAlone));
  });

  it("tells the gap of the worst pair as the check has it there, with its colour and hatch", async () => {
    const watch = { onProgress() {}, isStopped: () => false, breathe: () => Promise.resolve() };
    const { pairs } = await machine.check(prepared, NAME, watch);
    const worst = pairs.find(({ verdict }) => verdict === "clash" || verdict === "tight")!;
    const { travel_mm, pose, share = 1 } = worst.at;
    const state = { travel_mm: { left: travel_mm, right: travel_mm }, pose, share };
    const dimensions = { lengths: [], gaps: [{ a: worst.b, b: worst.a }], nearGaps: "none", measures: [] } as const;
    const picture = draw({ state, dimensions });
    const told = picture.dimensions.filter((one) => one.kind === "gap").map(({ clearance_mm }) => clearance_mm);
    expect(Math.min(...told)).toBeCloseTo(worst.clearance_mm, 3);
    const hasColour = ({ rgb }: Picture, isIt: (r: number, g: number, b: number) => boolean) => {
      for (let i = 0; i < rgb.length; i += 3) if (isIt(rgb[i]!, rgb[i + 1]!, rgb[i + 2]!)) return true;
      return false;
    };
    const isOrange = (r: number, _g: number, b: number) => r > b + 90;
    const isBlue = (r: number, _g: number, b: number) => b > r + 30;
    const isSeen = (["rear", "front", "left", "right", "plan", "below"] as const).some((view) =>
      hasColour(
        draw({ state, view, without: allBut(worst.a, worst.b) }),
        worst.verdict === "clash" ? isOrange : isBlue,
      ),
    );
    expect(isSeen).toBe(true);
    expect(hasColour(draw({ without: allBut("ball-a") }), (r, g, b) => isOrange(r, g, b) || isBlue(r, g, b))).toBe(
      false,
    );
  });

  it("writes lengths as they are: true ones, and forward, out and up where the view shows them", () => {
    const [from, to] = [{ place: BALLS["ball-a"]! }, { place: BALLS["ball-b"]! }];
    const texts = (view: ViewName, along: "straight" | "forward" | "out" | "up", unit: "mm" | "in" = "mm") =>
      draw({ view, dimensions: { ...USUAL.dimensions, lengths: [{ from, to, along }] } }, { unit }).dimensions.map(
        ({ text }) => text,
      );
    // by Pythagoras: 800 forward, 560 in, 640 up
    expect(texts("rear", "straight")).toEqual([`${Math.hypot(800, 560, 640).toFixed(1)} true`]);
    expect(texts("rear", "out")).toEqual(["560.0"]);
    expect(texts("rear", "up")).toEqual(["640.0"]);
    expect(texts("left", "forward")).toEqual(["800.0"]);
    expect(texts("plan", "out", "in")).toEqual(["22.047"]);
    const sight = fault({
      view: "rear",
      dimensions: { ...USUAL.dimensions, lengths: [{ from, to, along: "forward" }] },
    });
    expect(sight.wanted).toContain("out or up");
  });

  it("tells what was asked for and lies outside the parts that fill it, and draws nothing of it", () => {
    const [a, b] = [BALLS["ball-a"]!, BALLS["ball-b"]!];
    const near: Vec3 = [a[0], a[1], a[2] + DIAMETER_mm / 2];
    const lengths = [
      { from: { place: a }, to: { place: b }, along: "straight" as const },
      { from: { place: a }, to: { place: near }, along: "up" as const },
    ];
    const asked = { without: allBut("ball-a", "ball-b"), dimensions: { ...USUAL.dimensions, lengths } };
    const close = draw({ ...asked, around: ["ball-a"] });
    expect(close.dimensions.map(({ text }) => text)).toEqual([(DIAMETER_mm / 2).toFixed(1)]);
    expect(close.outside.map(({ text }) => text)).toEqual([`${distance(a, b).toFixed(1)} true`]);
    expect(close.overlay).not.toContain(distance(a, b).toFixed(1));
    expect(draw(asked).outside).toEqual([]);
  });

  it("has the wire of a spring fill the room that is checked for it, and no more", () => {
    const [coil] = pairCoils(prepared.bodies);
    const mesh = coilMesh(coil!, identityPose(), identityPose());
    const [upper, lower] = [bounds(coil!.upper.solid), bounds(coil!.lower.solid)];
    const wire = bounds({ ...coil!.upper.solid, positions: mesh.positions });
    for (const k of [0, 1, 2]) {
      const [least, most] = [Math.min(upper.min[k]!, lower.min[k]!), Math.max(upper.max[k]!, lower.max[k]!)];
      expect(wire.min[k]).toBeGreaterThan(least - 0.5);
      expect(wire.max[k]).toBeLessThan(most + 0.5);
      expect(wire.max[k]! - wire.min[k]!).toBeGreaterThan(0.9 * (most - least));
    }
  });

  it("says whose sheet it is, and never takes what was written for markup", () => {
    const said = { title: '<script>alert("1")</script> & co', note: "a\u0000b <b>" };
    const picture = draw({ without: allBut("ball-a") }, said);
    expect(picture.overlay).not.toContain("<script>");
    expect(picture.overlay).toContain("&#60;script&#62;");
    for (const said of [
      "2026-01-02",
      "as drawn · revision C",
      "Millimetres",
      "Measured from axle line",
      "does not check strength",
    ]) {
      expect(picture.overlay).toContain(said);
    }
    // another reader of XML takes it whole
    expect(new Resvg(svgOfPicture(picture)).width).toBeGreaterThan(0);
  });

  it("names what is asked for and not there, and the mend", () => {
    expect(fault({ without: ["nothing-such"] }).message).toContain('"nothing-such"');
    expect(fault({ datumId: "none-such" }).path).toBe("datum");
    expect(fault({ without: ids }).wrong).toContain("nothing is left");
    expect(fault({ dimensions: { ...USUAL.dimensions, gaps: [{ a: "tyre", b: "rim" }] } }).wrong).toContain(
      "never move",
    );
    const lengths = [{ from: { point: "no.such" }, to: { point: "upper.out" }, along: "straight" as const }];
    expect(fault({ dimensions: { ...USUAL.dimensions, lengths } }).wanted).toContain("upper.out");
    expect(fault({ state: { ...USUAL.state, travel_mm: { left: 999, right: 999 } } }).code).toBe("out-of-reach");
  });
});
