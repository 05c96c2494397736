import type { Vec3 } from "../../maths/vec3.ts";
import type { PointDocument, ShapeDocument } from "../document.ts";
import { InputError } from "../error.ts";
import type { RecipeField } from "./fields.ts";
import { type MadeDocument, type MadeValue, recipeOf } from "./made.ts";
import { type Anchor, movedPoint, type Refuse, type SizeHandle } from "./recipe.ts";

/** Car coordinates of a POINT, mm; `path` is for errors. */
export type Place = (point: PointDocument, path: string) => Vec3;

/**
 * The shape that the recipe gives for its values. Throws InputError `wrong-value` at `path`.KEY where sizes do not go
 * together, and what `place` throws.
 */
export function makeShape(made: MadeDocument, place: Place, path = "made"): ShapeDocument {
  const recipe = recipeOf(made);
  const refuse: Refuse = (key, wrong, wanted) => {
    const label = recipe.fields[key]?.label;
    throw new InputError("wrong-value", { path: `${path}.${key}` }, label ? `${label}: ${wrong}` : wrong, wanted);
  };
  return recipe.shape(valuesOf(made, place, path), refuse);
}

export function sizeHandles(made: MadeDocument, place: Place): readonly SizeHandle[] {
  return recipeOf(made).handles(valuesOf(made, place, "made"));
}

function valuesOf(made: MadeDocument, place: Place, path: string): Record<string, unknown> {
  const { fields } = recipeOf(made);
  const anchor = (point: PointDocument, at: string): Anchor => ({
    at: place(point, at),
    near: (by) => movedPoint(point, by),
  });
  return Object.fromEntries(
    Object.entries(fields).map(([key, field]) => {
      const value = made[key];
      if (field.kind === "point") return [key, anchor(value as PointDocument, `${path}.${key}`)];
      if (field.kind === "points") {
        return [key, (value as PointDocument[]).map((point, i) => anchor(point, `${path}.${key}[${i}]`))];
      }
      return [key, value];
    }),
  );
}

/** Every POINT of the recipe with the key that holds it, as `at` or `path[2]`. */
export function pointsOfMade(made: MadeDocument): { readonly key: string; readonly point: PointDocument }[] {
  return Object.entries(recipeOf(made).fields).flatMap(([key, field]) => {
    const value = made[key];
    if (field.kind === "point") return [{ key, point: value as PointDocument }];
    if (field.kind !== "points") return [];
    return (value as PointDocument[]).map((point, i) => ({ key: `${key}[${i}]`, point }));
  });
}

/** The same recipe with its points and directions turned into others. */
export function mapMade(
  made: MadeDocument,
  ofPoint: (point: PointDocument) => PointDocument,
  ofDirection: (direction: Vec3) => Vec3 = (direction) => direction,
): MadeDocument {
  const { fields } = recipeOf(made);
  const mapped = (field: RecipeField, value: MadeValue): MadeValue => {
    if (field.kind === "point") return ofPoint(value as PointDocument);
    if (field.kind === "points") return (value as PointDocument[]).map(ofPoint);
    return field.kind === "direction" ? ofDirection(value as unknown as Vec3) : value;
  };
  const entries = Object.entries(fields).map(([key, field]) => [key, mapped(field, made[key]!)] as const);
  return { as: made.as, ...Object.fromEntries(entries) };
}

/** The recipe at its usual sizes and places. */
export function usualMade(name: string): MadeDocument {
  const { fields } = recipeOf({ as: name });
  const entries = Object.entries(fields).map(([key, field]) => [key, field.usual] as const);
  return { as: name, ...Object.fromEntries(entries) } as MadeDocument;
}
