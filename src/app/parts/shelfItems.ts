import type { Vec3 } from "../../maths/vec3.ts";
import type { MadeDocument, PointDocument, SceneDocument, ShapeDocument } from "../../scene/document.ts";
import { freePoint } from "../../scene/parts/parts.ts";
import { isVector } from "../../scene/pointResolver.ts";
import { isChassisSide } from "../../scene/points.ts";
import type { PointHint } from "../../scene/recipes/fields.ts";
import { RECIPES } from "../../scene/recipes/made.ts";
import { usualMade } from "../../scene/recipes/makeShape.ts";
import type { Recipe } from "../../scene/recipes/recipe.ts";
import { t } from "../text/text.ts";
import { recipeText } from "./recipeText.ts";
import { UNIT_SHAPES } from "./unitShapes.ts";

export interface ShelfItem {
  readonly name: string;
  readonly title: string;
  readonly about: string;
  /** null: one of the units that a corner has once. */
  readonly recipe: Recipe | null;
  readonly unit: keyof typeof UNIT_SHAPES | null;
  readonly picture: MadeDocument | ShapeDocument;
}

/** Units by the name of the part that a scene has of them. */
const UNITS = [
  { name: "wheel", unit: "wheel" },
  { name: "damper", unit: "damper" },
  { name: "driveshaft", unit: "driveshaft" },
  { name: "bar", unit: "antiRollBar" },
] as const;

export const SHELF: readonly ShelfItem[] = [
  ...RECIPES.map(
    (recipe): ShelfItem => ({
      name: recipe.name,
      title: recipeText(recipe.name, "title"),
      about: recipeText(recipe.name, "about"),
      recipe,
      unit: null,
      picture: usualMade(recipe.name),
    }),
  ),
  ...UNITS.map(
    ({ name, unit }): ShelfItem => ({
      name,
      title: t(`parts.shelf.units.${unit}.title`),
      about: t(`parts.shelf.units.${unit}.about`),
      recipe: null,
      unit,
      picture: UNIT_SHAPES[unit],
    }),
  ),
];

/** The recipe at usual sizes, hung on the scene's own points where some suit: the held one before all. */
export function suggestedMade(document: SceneDocument, recipe: Recipe, heldPoint: string | null): MadeDocument {
  const values: Record<string, unknown> = { ...usualMade(recipe.name) };
  let free = heldPoint !== null && Object.hasOwn(document.points, heldPoint) ? heldPoint : null;
  const link = recipe.isArm ? document.members.find((member) => member.kind === "link") : undefined;
  // an arm is likeliest to run where a link of the scene does
  if (link && free === null) return { ...values, a: link.inboard, b: link.outboard } as unknown as MadeDocument;
  for (const [key, field] of Object.entries(recipe.fields)) {
    if (field.kind === "point") {
      values[key] = free ?? hinted(document, field.hint)[0] ?? field.usual;
      free = null;
    }
    if (field.kind === "points") {
      const found = hinted(document, field.hint).slice(0, field.max);
      if (found.length >= field.min) values[key] = found;
    }
  }
  return values as unknown as MadeDocument;
}

function hinted(document: SceneDocument, hint: PointHint | null): readonly PointDocument[] {
  if (hint === "wheel") return [document.wheel.centre];
  if (hint === "inboard") return Object.keys(document.points).filter((name) => isChassisSide(document, name));
  if (hint === null) return [];
  return document.members.flatMap((member) => ("outboard" in member ? [member.outboard] : []));
}

/** The same values with bare places turned into named points of the part's own, and those points. */
export function withOwnPoints(
  document: SceneDocument,
  recipe: Recipe,
  made: MadeDocument,
  id: string,
): { readonly made: MadeDocument; readonly points: Readonly<Record<string, Vec3>> } {
  const points: Record<string, Vec3> = {};
  const named = (point: PointDocument, tail: string): PointDocument => {
    if (!isVector(point)) return point;
    const name = freePoint(document, `${id}.${tail}`);
    points[name] = point;
    return name;
  };
  const values: Record<string, unknown> = { ...made };
  for (const [key, field] of Object.entries(recipe.fields)) {
    if (field.kind === "point") values[key] = named(made[key] as PointDocument, key);
    if (field.kind === "points") {
      values[key] = (made[key] as readonly PointDocument[]).map((point, i) => named(point, String(i + 1)));
    }
  }
  return { made: values as unknown as MadeDocument, points };
}
