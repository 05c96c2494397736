import { describe, expect, it } from "vitest";
import type { ShapeDocument } from "../../../src/scene/document.ts";
import type { PieceShape } from "../../../src/scene/parts/pieceFields.ts";
import {
  addPieces,
  piecesOf,
  readPiece,
  shapeOfPieces,
  typedPiece,
  withPieces,
} from "../../../src/scene/parts/pieces.ts";
import { parsePlace } from "../../../src/scene/placeText.ts";
import { SCENE_FILES, sceneFile } from "../../scenes/files.ts";

const NAMES = ["upper.in", "upper.in 2", "upper"];

describe("a place as typed", () => {
  it.each([
    ["120; 455; 462", [120, 455, 462]],
    ["120\t455\t-462", [120, 455, -462]],
    ["120, 455, 462", [120, 455, 462]],
    ["120 455 462", [120, 455, 462]],
    ["9,5; 1 1/2in; −3", [9.5, 38.1, -3]],
    ["upper.in", "upper.in"],
    ["upper.in 2: 0; 15; 1", { from: "upper.in 2", by: [0, 15, 1] }],
    ["upper.in : 0 15 1", { from: "upper.in", by: [0, 15, 1] }],
  ])("%s", (text, place) => {
    expect(parsePlace(text, "mm", NAMES)).toEqual({ ok: true, value: place });
  });

  it.each([
    ["120; 455", { code: "noPlace" }],
    ["", { code: "noPlace" }],
    ["lower.in", { code: "noPoint", word: "lower.in" }],
    ["120; wide; 3", { code: "noPoint", word: "wide" }],
    ["1,200; 3; 4", { code: "noLength", word: "1,200", length: { code: "two-ways" } }],
  ])("%s is told why it is none", (text, fault) => {
    expect(parsePlace(text, "mm", NAMES)).toMatchObject({ ok: false, fault });
  });

  it("reads bare numbers in the unit that is shown", () => {
    expect(parsePlace("1; 2; 0", "in", [])).toEqual({ ok: true, value: [25.4, 50.8, 0] });
  });
});

describe("every part of the sample scenes can be typed piece by piece", () => {
  const shapes = SCENE_FILES.flatMap(({ name, document }) => [
    ...document.bodies.map((body) => [`${name} ${body.id}`, body.shape, document] as const),
    ...document.members.flatMap((member) =>
      member.body ? [[`${name} ${member.id}`, member.body, document] as const] : [],
    ),
  ]);

  it("and reads back as it was, to a ten-thousandth of a millimetre", () => {
    for (const [name, shape, document] of shapes) {
      const pieces = piecesOf(shape);
      expect(pieces, name).not.toBeNull();
      const setting = { unit: "mm", names: Object.keys(document.points) } as const;
      const again = pieces!.map((piece) => readPiece(typedPiece(piece, "mm"), setting));
      for (const { faults } of again) expect(faults, name).toEqual({});
      const flat = (one: readonly PieceShape[]) => rounded(shapeOfPieces(one));
      expect(flat(again.map((one) => one.shape!)), name).toEqual(flat(pieces!));
    }
  });
});

/** Numbers to what texts carry. */
function rounded(value: unknown): unknown {
  if (typeof value === "number") return Math.round(value * 1e4) / 1e4 + 0;
  if (Array.isArray(value)) return value.map(rounded);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, rounded(one)]));
}

describe("pieces in a scene", () => {
  const { document } = sceneFile("1-");
  const cylinder = { kind: "cylinder", from: "upper.in", to: [0, 0, 400], diameter_mm: 20 } as const;

  it("make a part of one piece or of several", () => {
    const one = addPieces(document, { id: "peg", on: "chassis", role: "bracket", mirror: true, pieces: [cylinder] });
    expect(one.bodies.at(-1)).toEqual({ id: "peg", on: "chassis", shape: cylinder, role: "bracket", mirror: true });
    const two = withPieces(one, "peg", [cylinder, { kind: "sphere", at: "upper.in", diameter_mm: 30 }]);
    expect(two.bodies.at(-1)!.shape.kind).toBe("group");
  });

  it("draw a member, and forget how it was made", () => {
    const drawn = withPieces(document, "upper", [cylinder]);
    expect(drawn.members.find(({ id }) => id === "upper")).toMatchObject({ body: cylinder });
  });

  it("are refused where there is none, or where the scene could not be opened again", () => {
    expect(() => addPieces(document, { id: "peg", on: "chassis", pieces: [] })).toThrow(/no piece/);
    expect(() => addPieces(document, { id: "sump", on: "chassis", pieces: [cylinder] })).toThrow(/taken/);
    const flat = { kind: "cylinder", from: [0, 0, 0], to: [0, 0, 0], diameter_mm: 20 } as const;
    expect(() => addPieces(document, { id: "peg", on: "chassis", pieces: [flat] })).toThrow();
  });

  it("a shape that is placed as a whole, or a scan, has none", () => {
    const group: ShapeDocument = { kind: "group", at: [0, 0, 1], parts: [cylinder] };
    expect(piecesOf(group)).toBeNull();
    expect(piecesOf({ kind: "mesh", file: "scan.stl", unit: "mm" })).toBeNull();
  });

  it("tell what is missing and which row is wrong", () => {
    const setting = { unit: "mm", names: [] } as const;
    expect(readPiece({ kind: "cylinder", texts: { from: "0;0;0" } }, setting).faults).toEqual({
      to: { code: "missing" },
      diameter_mm: { code: "missing" },
    });
    const hull = readPiece({ kind: "hull", texts: { spheres: "1;2;3;10\n1;2;3" } }, setting);
    expect(hull.faults.spheres).toEqual({ code: "row", number: 2, fault: { code: "ball" } });
  });
});
