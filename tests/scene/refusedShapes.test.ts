import { describe, expect, it } from "vitest";
import { itRefuses, type Refused, sceneAfter } from "./fixture.ts";

const square = [
  [0, 0],
  [40, 0],
  [40, 40],
  [0, 40],
];
const plate = (outline: unknown, holes: unknown = [], v = [0, 1, 0]) => ({
  kind: "prism",
  outline,
  holes,
  thickness_mm: 4,
  origin: [0, 0, 0],
  u: [1, 0, 0],
  v,
});
const tube = (path: unknown, more = {}) => ({ kind: "tube", path, diameter_mm: 5, ...more });
const mesh = (file: string, unit = "mm") => ({ kind: "mesh", file, unit });
const triangle = (u: number, v: number, size: number) => [
  [u, v],
  [u + size, v],
  [u, v + size],
];

/** The shape takes the place of the first body's; `place` is the path within it. */
const shaped = (what: string, shape: unknown, place: string, message: RegExp): Refused => [
  what,
  { "bodies[0].shape": shape },
  `bodies[0].shape${place}`,
  message,
];

describe("shapes that cannot be built", () => {
  const ends = { from: [0, 0, 0], to: [0, 0, 0] };
  itRefuses("zero-length", [
    shaped("a cylinder", { kind: "cylinder", ...ends, diameter_mm: 5 }, ".to", /cylinder/),
    shaped("a capsule", { kind: "capsule", ...ends, diameter_mm: 5 }, ".to", /capsule/),
    shaped("a cone", { kind: "cone", ...ends, fromDiameter_mm: 5, toDiameter_mm: 0 }, ".to", /cone/),
    shaped(
      "a tube that stands still",
      tube([
        [0, 0, 0],
        [9, 0, 0],
        [9, 0, 0],
      ]),
      ".path[2]",
      /tube/,
    ),
    shaped("a plate's axis", { ...plate(square), u: [0, 0, 0] }, ".u", /direction/),
  ]);
  const thin = { kind: "cone", from: [0, 0, 0], to: [0, 0, 9], fromDiameter_mm: 0, toDiameter_mm: 0 };
  const deep = Array.from({ length: 20 }).reduce((inner) => ({ kind: "group", parts: [inner] }), { kind: "wheel" });
  const flat = [
    [0, 0, 0],
    [9, 0, 0],
    [0, 9, 0],
    [9, 9, 0],
    [4, 4, 0],
  ];
  itRefuses("wrong-value", [
    shaped("a cone of nothing", thin, ".toDiameter_mm", /thickness/),
    shaped("an edge too round", { kind: "box", size_mm: [10, 20, 30], edge_mm: 6 }, ".edge_mm", /at most 5/),
    shaped("a ring into itself", { kind: "torus", diameter_mm: 40, section_mm: 40 }, ".section_mm", /itself/),
    shaped("a tube of one point", tube([[0, 0, 0]]), ".path", /1 points/),
    shaped(
      "a wall too thick",
      tube(
        [
          [0, 0, 0],
          [9, 0, 0],
        ],
        { wall_mm: 2.6 },
      ),
      ".wall_mm",
      /at most half.*2\.5/,
    ),
    shaped(
      "two corners",
      plate([
        [0, 0],
        [9, 0],
      ]),
      ".outline",
      /2 corners/,
    ),
    shaped(
      "a figure of eight",
      plate([
        [0, 0],
        [9, 9],
        [9, 0],
        [0, 9],
      ]),
      ".outline",
      /crosses itself/,
    ),
    shaped(
      "an outline that touches itself",
      plate([
        [0, 0],
        [40, 0],
        [40, 40],
        [20, 0],
        [0, 40],
      ]),
      ".outline",
      /crosses/,
    ),
    shaped("an outline closed twice", plate([...square, [0, 0]]), ".outline", /repeats/),
    shaped(
      "a spike",
      plate([
        [0, 0],
        [40, 0],
        [20, 0],
        [0, 40],
      ]),
      ".outline",
      /folds back/,
    ),
    shaped("a hole through the edge", plate(square, [triangle(30, 10, 20)]), ".holes[0]", /not within/),
    shaped("a hole that touches the edge", plate(square, [triangle(0, 10, 5)]), ".holes[0]", /not within/),
    shaped("a hole beside the plate", plate(square, [triangle(50, 10, 5)]), ".holes[0]", /not within/),
    shaped("a hole round the plate", plate(triangle(10, 10, 5), [square]), ".holes[0]", /not within/),
    shaped("a hole in a hole", plate(square, [triangle(5, 5, 30), triangle(8, 8, 2)]), ".holes[1]", /holes\[0\]/),
    shaped("parallel axes", plate(square, [], [-3, 0, 0]), ".v", /parallel/),
    shaped("an empty hull", { kind: "hull" }, "", /empty/),
    shaped("a hull of lists without points", { kind: "hull", points: [], spheres: [] }, "", /empty/),
    shaped("a flat hull", { kind: "hull", points: flat }, ".points", /one plane/),
    shaped("a hull on a line", { kind: "hull", points: flat.slice(0, 2) }, ".points", /one plane/),
    shaped("a hull at one place", { kind: "hull", points: [flat[0], flat[0]] }, ".points", /one plane/),
    shaped("an empty group", { kind: "group", parts: [] }, ".parts", /empty/),
    shaped("groups without end", deep, ".parts[0]".repeat(16), /16 levels/),
  ]);
});

describe("scans outside the scene's folder", () => {
  const outside =
    "/etc/a.stl ../a.stl b/../../a.stl b\\a.stl C:/a.stl C:a.stl https://example.org/a.stl file:a.stl ./a.stl b//a.stl";
  itRefuses("mesh", [
    ...[...outside.split(" "), "a.step", "a", "", "a\u0000.stl"].map((file) =>
      shaped(JSON.stringify(file), mesh(file), ".file", /scene's folder/),
    ),
    [
      "one scan in two units",
      { "bodies[0].shape": mesh("scans/tunnel.stl") },
      "bodies[2].shape.parts[6].unit",
      /in m here, in mm at bodies\[0\]\.shape/,
    ],
  ]);

  it.each(["a.stl", "scans/left side.OBJ", "b/c.ply", "..a.glb", "a..stl"])("takes %s", (file) => {
    const scene = sceneAfter((s) => {
      s.bodies[0].shape = mesh(file);
    });
    expect(scene.bodies[0]!.shape).toMatchObject({ file });
  });
});

describe("shapes on the edge of what can be built", () => {
  it.each([
    ["a hull of one ball", { kind: "hull", spheres: [{ at: [0, 0, 0], diameter_mm: 9 }] }],
    ["a box rounded to a ball", { kind: "box", size_mm: [10, 10, 10], edge_mm: 5 }],
    ["a cone to a point", { kind: "cone", from: [0, 0, 0], to: [0, 0, 9], fromDiameter_mm: 4, toDiameter_mm: 0 }],
    [
      "a solid tube given by its wall",
      tube(
        [
          [0, 0, 0],
          [9, 0, 0],
        ],
        { wall_mm: 2.5 },
      ),
    ],
    [
      "an outline that runs on straight",
      plate([
        [0, 0],
        [20, 0],
        [40, 0],
        [0, 40],
      ]),
    ],
    [
      "an outline the other way round, with a notch",
      plate([
        [0, 40],
        [20, 10],
        [40, 40],
        [40, 0],
        [0, 0],
      ]),
    ],
    ["two holes side by side", plate(square, [triangle(5, 5, 10), triangle(20, 20, 10)])],
  ])("takes %s", (_, shape) => {
    expect(
      sceneAfter((s) => {
        s.bodies[0].shape = shape;
      }).bodies[0]!.shape,
    ).toMatchObject({ kind: shape.kind });
  });
});
