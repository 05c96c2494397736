import * as z from "zod";
import {
  above,
  choice,
  type DeepReadonly,
  direction,
  length_mm,
  list,
  number,
  point,
  record,
  size_mm,
  text,
  turn_deg,
} from "./values.ts";

const placed = { at: point.optional(), turn_deg: turn_deg.optional() };
const flatPoint = z.tuple([number(-100_000, 100_000, "mm"), number(-100_000, 100_000, "mm")], {
  error: "[u, v] in mm",
});
const outline = list(flatPoint, 0, 1000);

/** What is mended in a mesh file each time it is read; the file itself stays as it is. */
const repair = record({
  /** Vertices this near to each other become one. */
  weldWithin_mm: above(0, 10, "mm").optional(),
  /** Loose pieces smaller than this over their box are left out. */
  straysBelow_mm: size_mm.optional(),
  /** Flat holes no larger than this across are closed. */
  holesUpTo_mm: size_mm.optional(),
});

/**
 * What is checked in place of a fine mesh: thinned out with an error of `error_mm` asked of the simplifier, which leaves no
 * point of the mesh farther than `within_mm` from it. That is proved anew each time the file is read.
 */
const thinned = record({ within_mm: above(0, 100, "mm"), error_mm: above(0, 100, "mm") });

const simpleShapes = [
  record({ kind: z.literal("sphere"), ...placed, diameter_mm: size_mm }),
  record({ kind: z.literal("cylinder"), ...placed, from: point, to: point, diameter_mm: size_mm }),
  record({ kind: z.literal("capsule"), ...placed, from: point, to: point, diameter_mm: size_mm }),
  record({
    kind: z.literal("cone"),
    ...placed,
    from: point,
    to: point,
    fromDiameter_mm: length_mm,
    toDiameter_mm: length_mm,
  }),
  record({
    kind: z.literal("box"),
    ...placed,
    size_mm: z.tuple([size_mm, size_mm, size_mm], { error: "[x, y, z] over all, in mm" }),
    edge_mm: length_mm.optional(),
  }),
  record({ kind: z.literal("torus"), ...placed, diameter_mm: size_mm, section_mm: size_mm }),
  record({
    kind: z.literal("tube"),
    ...placed,
    path: list(point, 0, 1000),
    diameter_mm: size_mm,
    bend_mm: size_mm.optional(),
    wall_mm: size_mm.optional(),
  }),
  record({
    kind: z.literal("prism"),
    ...placed,
    outline,
    holes: list(outline, 0, 200).optional(),
    thickness_mm: size_mm,
    origin: point,
    u: direction,
    v: direction,
  }),
  record({
    kind: z.literal("hull"),
    ...placed,
    points: list(point, 0, 5000).optional(),
    spheres: list(record({ at: point, diameter_mm: size_mm }), 0, 1000).optional(),
  }),
  record({ kind: z.literal("wheel"), ...placed }),
  record({
    kind: z.literal("mesh"),
    ...placed,
    file: text(300, "the name of a mesh file beside the scene"),
    unit: choice(["mm", "cm", "m", "in"]),
    repair: repair.optional(),
    thinned: thinned.optional(),
  }),
] as const;

type SimpleShape = z.infer<(typeof simpleShapes)[number]>;
interface Group {
  kind: "group";
  at?: z.infer<typeof point> | undefined;
  turn_deg?: z.infer<typeof turn_deg> | undefined;
  parts: (SimpleShape | Group)[];
}

const parts: z.ZodType<Group["parts"]> = z.lazy(() => list(shape, 0, 1000));
const group = record({ kind: z.literal("group"), ...placed, parts });

/** A shape as the builder writes it, points unresolved. */
export const shape = z.discriminatedUnion("kind", [...simpleShapes, group], {
  error: "a shape: a record with a kind",
});

export type ShapeDocument = DeepReadonly<SimpleShape | Group>;
