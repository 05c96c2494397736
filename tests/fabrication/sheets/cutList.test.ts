import { describe, expect, it } from "vitest";
import { sheetFonts } from "../../../src/cli/sheetFonts.ts";
import { areaOf, type CutPiece, cutListOf } from "../../../src/fabrication/sheets/cutList.ts";
import { cutListCsv } from "../../../src/fabrication/sheets/cutListCsv.ts";
import { cutListSheet } from "../../../src/fabrication/sheets/cutListSheet.ts";
import { stockOf } from "../../../src/fabrication/sheets/stock.ts";
import { threadEnd } from "../../../src/fabrication/sheets/threadEnd.ts";
import type { BodyDocument, SceneDocument } from "../../../src/scene/document.ts";
import { agrees, agreesEach, agreesOn, agreesWithin } from "../../truth/agreement.ts";
import { renderPdf } from "../renderPdf.ts";
import { sample } from "./carScene.ts";

const WISHBONES = "3-double-wishbones-toe-link";
const SAW = { saw_mm: 2, trim_mm: 1, stock_mm: null };

/** The sample with the toe link 300 mm long from eye to eye, with these ends. */
function toeLink(tubeEnds: SceneDocument["tubeEnds"]): CutPiece {
  const scene = sample(WISHBONES);
  const points = { ...scene.points, "toe.in": [100, 390, 246] as const, "toe.out": [100, 690, 246] as const };
  return cutListOf({ ...scene, points, tubeEnds }, SAW).pieces.find(({ part }) => part === "toe")!;
}

const ROD_END = {
  kind: "rod end",
  thread_mm: 12,
  pitch_mm: 1.75,
  eye_mm: 54,
  shank_mm: 33,
  adapter_mm: 3,
  depth_mm: 30,
  nut_mm: 6,
} as const;

describe("a rod end in its adapter", () => {
  it("is set in the middle of what may be in", () => {
    // worked for these checks: 1.5 × 12 = 18 at least; at most 33 − 6 = 27, less than the 30 of the adapter; the middle is 22.5
    agreesOn("threadEnd", threadEnd({ joint: "a", ...ROD_END }), {
      engaged_mm: 22.5,
      least_mm: 18,
      most_mm: 27,
      reach_mm: 54 - 22.5 + 3,
      longer_mm: 4.5,
      shorter_mm: 4.5,
      fault: null,
    });
  });

  it("tells where there is no room, or it is set where it may not be", () => {
    expect(threadEnd({ joint: "a", ...ROD_END, depth_mm: 17 }).fault).toBe("short");
    expect(threadEnd({ joint: "a", ...ROD_END, engaged_mm: 17 })).toMatchObject({ fault: "set", longer_mm: -1 });
    expect(threadEnd({ joint: "a", ...ROD_END, engaged_mm: 28 })).toMatchObject({ fault: "set", shorter_mm: -1 });
  });
});

describe("the cut length of a link", () => {
  it("is eye to eye less what both rod ends reach", () => {
    const piece = toeLink([
      { joint: "toe.inboard", ...ROD_END, hand: "left" },
      { joint: "toe.outboard", ...ROD_END },
    ]);
    // worked for these checks: each end reaches 34.5
    agrees("eyeToEye", piece.eyeToEye_mm, 300, 9);
    agrees("cutLength", piece.cut_mm, 300 - 2 * 34.5, 9);
    agrees("sawnLength", piece.sawn_mm, 231 + 2, 9);
    agreesOn("threadAdjust", piece.adjust_mm, { longer: 9, shorter: 9 });
    expect(piece.ends.map(({ thread }) => thread?.name)).toEqual(["M12 × 1.75 LH", "M12 × 1.75"]);
    // EN 10220: a tube weighs 0.0246615 (D − T) T kg a metre; the toe link is Ø 20 × 2
    agrees("tubeMass", piece.mass_kg, 0.0246615 * 18 * 2 * 0.231, 4);
    agreesOn("pieceCount", piece.count, 2);
  });

  it("is not told while an end is not", () => {
    expect(toeLink([{ joint: "toe.inboard", ...ROD_END }])).toMatchObject({ cut_mm: null, mass_kg: null });
  });

  it("stops square before the joint, or at the sleeve", () => {
    const piece = toeLink([
      { joint: "toe.inboard", kind: "square", short_mm: 25 },
      { joint: "toe.outboard", kind: "sleeve", outside_mm: 28 },
    ]);
    // the joint's bolt stands upright, square to the tube: the longest generator of r = 10 meets R = 14 at √(R² − r²)
    agrees("cutLength", piece.cut_mm, 300 - 25 - Math.sqrt(14 ** 2 - 10 ** 2), 6);
    agrees("mitreDepth", piece.mitre_mm, 14 - Math.sqrt(14 ** 2 - 10 ** 2), 6);
  });

  it("follows a cranked tube from eye to eye, though it is drawn short of them", () => {
    const scene = sample(WISHBONES);
    const points = { ...scene.points, "toe.in": [100, 390, 246] as const, "toe.out": [100, 690, 246] as const };
    const shape = {
      kind: "group",
      parts: [
        {
          kind: "tube",
          path: [
            [100, 400, 256],
            [100, 540, 396],
            [100, 680, 256],
          ],
          diameter_mm: 20,
          bend_mm: 60,
        },
        { kind: "sphere", at: "toe.in", diameter_mm: 28 },
      ],
    } as const;
    const members = scene.members.map((member) => (member.id === "toe" ? { ...member, body: shape } : member));
    const ends = ["inboard", "outboard"].map((end) => ({ joint: `toe.${end}`, kind: "square", short_mm: 0 }) as const);
    const { pieces } = cutListOf({ ...scene, points, members, tubeEnds: ends }, SAW);
    const toe = pieces.find(({ part }) => part === "toe")!;
    expect(toe.eyeToEye_mm).toBeCloseTo(300, 9);
    // two sides of a square over a diagonal of 300, less two tangents of 60 and with a quarter circle
    agrees("cutLength", toe.cut_mm, 300 * Math.SQRT2 - 120 + 30 * Math.PI, 6);
  });

  it("leaves out what is drawn as plate, and says so", () => {
    const scene = sample(WISHBONES);
    const body = { kind: "box", size_mm: [30, 260, 40], at: [115, 560, 246] } as const;
    const members = scene.members.map((member) => (member.id === "toe" ? { ...member, body } : member));
    const { pieces, faults } = cutListOf({ ...scene, members }, SAW);
    expect(pieces.some(({ part }) => part === "toe")).toBe(false);
    expect(faults).toEqual([{ code: "no-tube", part: "toe" }]);
  });

  it("tells ends that leave no tube", () => {
    const scene = sample(WISHBONES, {
      tubeEnds: [
        { joint: "toe.inboard", kind: "square", short_mm: 400 },
        { joint: "toe.outboard", kind: "square", short_mm: 0 },
      ],
    });
    expect(cutListOf(scene, SAW).faults).toContainEqual({ code: "no-room", part: "toe" });
  });
});

describe("tubes of the frame", () => {
  const tube = (id: string, path: readonly (readonly [number, number, number])[], more: object = {}): BodyDocument => ({
    id,
    on: "chassis",
    role: "frame",
    shape: { kind: "tube", path: [...path], diameter_mm: 40, wall_mm: 2, ...more },
  });
  const pieces = (...bodies: BodyDocument[]) =>
    cutListOf(sample(WISHBONES, { bodies }), SAW).pieces.filter(({ what }) => what === "frame");

  it("that are bent are as long as their centre line", () => {
    const [bent] = pieces(
      tube(
        "hoop",
        [
          [0, 0, 0],
          [500, 0, 0],
          [500, 300, 0],
        ],
        { bend_mm: 80 },
      ),
    );
    // two straights less two tangents of 80, and a quarter circle
    expect(bent!.cut_mm).toBeCloseTo(500 + 300 - 160 + (Math.PI / 2) * 80, 6);
    agreesOn("tubeBends", bent!.bends, [{ radius_mm: 80, angle_deg: 90 }]);
  });

  it("that are mitred are one piece for each straight, longer by the slant", () => {
    const found = pieces(
      tube("corner", [
        [0, 0, 0],
        [500, 0, 0],
        [500, 300, 0],
      ]),
    );
    // the cut stands at half of the corner: 20 · tan 45°
    expect(found.map(({ cut_mm }) => cut_mm)).toEqual([expect.closeTo(520, 6), expect.closeTo(320, 6)]);
    expect(found[0]!.ends[1]!.how).toBe("mitred");
    agrees("endCutAngle", found[0]!.ends[1]!.angle_deg, 45, 6);
    // a slant takes off as much as it adds
    expect(found[0]!.mass_kg).toBeCloseTo(0.0246615 * 38 * 2 * 0.5, 4);
  });

  it("are coped to a thicker one that they run into, to the half of equal ones", () => {
    const found = pieces(
      tube(
        "rail",
        [
          [-500, 0, 0],
          [500, 0, 0],
        ],
        { diameter_mm: 50 },
      ),
      tube("post", [
        [0, 0, 0],
        [0, 0, 300],
      ]),
    );
    // r = 20 meets R = 25 at right angles
    const [coped] = found[1]!.ends;
    expect(coped).toMatchObject({ how: "coped", at: "rail" });
    agrees("endCutAngle", coped.angle_deg, 90, 6);
    // how far before the drawn end: along the bottom and top, R; along the sides √(R² − r²), its wall of 2 mm left out
    agreesWithin("endCutReach", coped.longest_mm, Math.sqrt(25 ** 2 - 20 ** 2), 1e-6);
    agreesWithin("endCutReach", coped.shortest_mm, 25, 1e-6);
    expect(found[1]!.cut_mm).toBeCloseTo(300 - Math.sqrt(25 ** 2 - 20 ** 2), 6);
    expect(found[0]!.cut_mm).toBeCloseTo(1000, 9);
  });

  it("count twice where they have an image, and sections count by their length", () => {
    const beam: BodyDocument = {
      id: "beam",
      on: "chassis",
      role: "frame",
      mirror: true,
      shape: { kind: "box", size_mm: [700, 60, 40], at: [0, 400, 200] },
    };
    const [found] = pieces(beam);
    expect(found).toMatchObject({ count: 2, cut_mm: 700, size: { kind: "section", height_mm: 60, width_mm: 40 } });
  });

  it("of exhausts, hoses and what is bought are left out", () => {
    expect(
      pieces({
        ...tube("pipe", [
          [0, 0, 0],
          [0, 0, 300],
        ]),
        role: "exhaust",
      }),
    ).toEqual([]);
  });
});

describe("what is bought", () => {
  const piece = (sawn_mm: number, count: number) => ({ ...toeLink([]), sawn_mm, count });

  it("adds saw cuts, and lays every piece into a bar once", () => {
    const pieces = [piece(2500, 2), piece(1900, 3), piece(900, 4), piece(6500, 1)];
    const [line] = stockOf(pieces, { saw_mm: 3, trim_mm: 0, stock_mm: 6000 });
    agreesEach(
      "stock",
      line!,
      { pieces: 10, tooLong: 1, long_mm: 2 * 2500 + 3 * 1900 + 4 * 900 + 6500 + 10 * 3 },
      1e-9,
    );
    const laid = line!.bars.flat().sort((a, b) => b - a);
    for (const [i, length_mm] of [2500, 2500, 1900, 1900, 1900, 900, 900, 900, 900].entries())
      agrees("stock", laid[i], length_mm, 9);
    expect(laid).toHaveLength(9);
    for (const bar of line!.bars)
      expect(bar.reduce((sum, cut) => sum + cut, 3 * (bar.length - 1))).toBeLessThanOrEqual(6000);
  });

  it("is counted by joint and thickness, for both sides", () => {
    const { counts } = cutListOf(sample(WISHBONES), SAW);
    const of = (what: string, size: string) =>
      counts.find((found) => found.what === what && found.size === size)?.count;
    // counted in the scene by hand: M12 in lower.front and lower.rear, one toe rod end and its nut on each side
    agreesOn("counted", of("bolt", "M12 8.8"), 4);
    agreesOn("counted", of("rod end", "M12 × 1.75"), 2);
    agreesOn("counted", of("lock nut", "M12 × 1.75"), 2);
    // upper.outboard and lower.outboard, Ø 36
    agreesOn("counted", of("sleeve", "Ø 36"), 4);
    // two plates of 6 mm in the side mount and three in the torque mount, which have no image
    agreesOn("counted", of("plate", "6 mm"), 5);
  });
});

describe("the cut list as table and sheet", () => {
  const list = cutListOf(sample(WISHBONES), SAW);

  it("holds every piece and count", () => {
    const rows = cutListCsv(list).trimEnd().split("\n");
    expect(rows).toHaveLength(1 + list.pieces.length + list.counts.length);
    const toe = list.pieces.find(({ part }) => part === "toe")!;
    expect(rows.find((row) => row.startsWith("cut,toe,"))).toContain(`,${Math.round(toe.cut_mm! * 1000) / 1000},`);
  });

  it("is printed with its lengths, and with what is missing", async () => {
    const facts = {
      title: "Cut list",
      subject: "a car",
      date: "2026-11-26",
      revision: "C",
      units: "mm",
      standing: "drawn" as const,
      datum: "ground",
      cautions: ["Shape and movement only."],
    };
    const bare = cutListOf(sample(WISHBONES, { tubeEnds: [] }), SAW);
    const print = async (told: typeof list) =>
      (await renderPdf(await cutListSheet(told, SAW, facts, { paper: "letter", fonts: await sheetFonts() }, "mm")))
        .map(({ text }) => text)
        .join("\n");
    const text = await print(list);
    for (const { cut_mm } of list.pieces) expect(text).toContain(cut_mm!.toFixed(1));
    expect(text).toContain("common practice");
    expect(await print(bare)).toContain("toe.inboard: how does the tube end there?");
  });

  it("knows the area of a section by its wall", () => {
    expect(areaOf({ kind: "section", height_mm: 60, width_mm: 40, wall_mm: 3 })).toBe(60 * 40 - 54 * 34);
    expect(areaOf({ kind: "round", diameter_mm: 20, wall_mm: 10 })).toBeCloseTo(Math.PI * 100, 9);
    expect(areaOf({ kind: "round", diameter_mm: 20, wall_mm: null })).toBeNull();
  });
});
