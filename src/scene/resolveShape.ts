import { cross, dot, length, normalise, subtract, type Vec3 } from "../maths/vec3.ts";
import type { PointDocument, ShapeDocument } from "./document.ts";
import { meshPathFault } from "./meshPath.ts";
import { liesWithin, outlineFault, overlap } from "./outline.ts";
import { shortQuote } from "./path.ts";
import { apart, type Resolving, SAME_PLACE_MM, squaredTo, unitVector } from "./resolving.ts";
import type { HullShape, Shape } from "./scene.ts";

const DEEPEST_GROUP = 16;

/** Which of a named point's two places a shape takes: brackets on the chassis follow the mount, moving parts are as drawn. */
export type Locate = (point: PointDocument, path: string) => Vec3;

/** The shape with its points in car coordinates and its absent fields null. Throws InputError for what cannot be built. */
export function resolveShape(shape: ShapeDocument, path: string, locate: Locate, context: Resolving, depth = 0): Shape {
  const { refuse } = context;
  const placed = {
    at: shape.at === undefined ? null : locate(shape.at, `${path}.at`),
    turn_deg: shape.turn_deg ?? null,
  };
  switch (shape.kind) {
    case "sphere":
    case "wheel":
      return { ...shape, ...placed };
    case "cylinder":
    case "capsule":
    case "cone": {
      const from = locate(shape.from, `${path}.from`);
      const to = locate(shape.to, `${path}.to`);
      apart(from, to, `${path}.to`, `the ${shape.kind}`, context);
      if (shape.kind === "cone" && shape.fromDiameter_mm === 0 && shape.toDiameter_mm === 0) {
        throw refuse(
          "wrong-value",
          `${path}.toDiameter_mm`,
          "the cone has no thickness at either end",
          "a diameter above 0",
        );
      }
      return { ...shape, ...placed, from, to };
    }
    case "box": {
      const edge_mm = shape.edge_mm ?? null;
      const most = Math.min(...shape.size_mm) / 2;
      if (edge_mm !== null && edge_mm > most) {
        throw refuse(
          "wrong-value",
          `${path}.edge_mm`,
          `an edge radius of ${edge_mm} does not fit the box`,
          `at most ${most}`,
        );
      }
      return { ...shape, ...placed, edge_mm };
    }
    case "torus":
      if (shape.section_mm >= shape.diameter_mm) {
        const wanted = `less than diameter_mm, which is ${shape.diameter_mm}`;
        throw refuse("wrong-value", `${path}.section_mm`, `is ${shape.section_mm}: the ring runs into itself`, wanted);
      }
      return { ...shape, ...placed };
    case "tube":
      return { ...shape, ...placed, ...tubeFields(shape, path, locate, context) };
    case "prism":
      return { ...shape, ...placed, ...prismFields(shape, path, locate, context) };
    case "hull":
      return { ...shape, ...placed, ...hullFields(shape, path, locate, context) };
    case "mesh": {
      const fault = meshPathFault(shape.file);
      if (fault !== null) {
        const wanted = "an STL, OBJ, PLY or GLB file in the scene's folder or below it";
        throw refuse("mesh", `${path}.file`, `${shortQuote(shape.file)} ${fault}`, wanted);
      }
      return { ...shape, ...placed, repair: shape.repair ?? null, thinned: shape.thinned ?? null };
    }
    case "group": {
      if (depth >= DEEPEST_GROUP) {
        throw refuse("wrong-value", path, "groups are nested too deeply", `at most ${DEEPEST_GROUP} levels`);
      }
      if (shape.parts.length === 0)
        throw refuse("wrong-value", `${path}.parts`, "the group is empty", "at least one shape");
      const parts = shape.parts.map((part, i) => resolveShape(part, `${path}.parts[${i}]`, locate, context, depth + 1));
      return { ...shape, ...placed, parts };
    }
  }
}

/** Of a plate: each is held against each other. */
const MOST_CORNERS = 10_000;

type OfKind<Kind> = Extract<ShapeDocument, { kind: Kind }>;

function tubeFields(shape: OfKind<"tube">, path: string, locate: Locate, context: Resolving) {
  const { refuse } = context;
  const points = shape.path.map((point, i) => locate(point, `${path}.path[${i}]`));
  if (points.length < 2) {
    throw refuse("wrong-value", `${path}.path`, `has ${points.length} points`, "at least 2, the tube's ends");
  }
  for (let i = 1; i < points.length; i++) {
    apart(points[i - 1]!, points[i]!, `${path}.path[${i}]`, "a piece of the tube", context);
  }
  const wall_mm = shape.wall_mm ?? null;
  if (wall_mm !== null && wall_mm > shape.diameter_mm / 2) {
    const wanted = `at most half the diameter, ${shape.diameter_mm / 2}`;
    throw refuse("wrong-value", `${path}.wall_mm`, `is ${wall_mm}, thicker than the tube`, wanted);
  }
  return { path: points, bend_mm: shape.bend_mm ?? null, wall_mm };
}

function prismFields(shape: OfKind<"prism">, path: string, locate: Locate, context: Resolving) {
  const { refuse } = context;
  const holes = shape.holes ?? [];
  const corners = holes.reduce((sum, hole) => sum + hole.length, shape.outline.length);
  if (corners > MOST_CORNERS) {
    throw refuse("wrong-value", path, `the plate has ${corners} corners`, `at most ${MOST_CORNERS} with all its holes`);
  }
  for (const [outline, where] of [
    [shape.outline, `${path}.outline`] as const,
    ...holes.map((hole, i) => [hole, `${path}.holes[${i}]`] as const),
  ]) {
    const fault = outlineFault(outline);
    if (fault !== null) {
      throw refuse("wrong-value", where, fault, "at least 3 corners in order, each once, without crossing");
    }
  }
  holes.forEach((hole, i) => {
    if (!liesWithin(hole, shape.outline)) {
      throw refuse(
        "wrong-value",
        `${path}.holes[${i}]`,
        "the hole is not within the outline",
        "a hole that leaves material all round",
      );
    }
    const other = holes.findIndex((earlier, j) => j < i && overlap(earlier, hole));
    if (other >= 0) {
      throw refuse(
        "wrong-value",
        `${path}.holes[${i}]`,
        `the hole runs into holes[${other}]`,
        "holes apart from each other",
      );
    }
  });
  const u = unitVector(shape.u, `${path}.u`, context);
  const v = squaredTo(u, shape.v, `${path}.v`, context);
  return { holes, origin: locate(shape.origin, `${path}.origin`), u, v };
}

function hullFields(
  shape: OfKind<"hull">,
  path: string,
  locate: Locate,
  { refuse }: Resolving,
): Pick<HullShape, "points" | "spheres"> {
  const points = (shape.points ?? []).map((point, i) => locate(point, `${path}.points[${i}]`));
  const spheres = (shape.spheres ?? []).map(({ at, diameter_mm }, i) => ({
    at: locate(at, `${path}.spheres[${i}].at`),
    diameter_mm,
  }));
  if (points.length === 0 && spheres.length === 0) {
    throw refuse("wrong-value", path, "the hull is empty", "points, spheres or both");
  }
  if (spheres.length === 0 && isFlat(points)) {
    throw refuse(
      "wrong-value",
      `${path}.points`,
      "the hull's points lie in one plane",
      "at least 4 points that span a body",
    );
  }
  return { points, spheres };
}

/** Whether all points lie within SAME_PLACE_MM of one plane. */
function isFlat(points: readonly Vec3[]): boolean {
  const first = points[0]!;
  const along = farthest(points, (p) => length(subtract(p, first)));
  const axis = normalise(subtract(along, first));
  const beside = farthest(points, (p) => length(cross(subtract(p, first), axis)));
  const normal = normalise(cross(axis, subtract(beside, first)));
  return points.every((p) => Math.abs(dot(subtract(p, first), normal)) < SAME_PLACE_MM);
}

function farthest(points: readonly Vec3[], measure: (p: Vec3) => number): Vec3 {
  return points.reduce((best, p) => (measure(p) > measure(best) ? p : best));
}
