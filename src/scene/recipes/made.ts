import * as z from "zod";
import { choice, type DeepReadonly, direction, length_mm, list, number, point, record, size_mm } from "../values.ts";
import { boxedArm, crankedArm, tubeWithEyes } from "./arms.ts";
import { barClamp, clevis, gussetedPlate } from "./brackets.ts";
import { casing, exhaustRun, gearbox, sump, tank } from "./driveline.ts";
import type { RecipeField } from "./fields.ts";
import { crossTube, frameRail } from "./frame.ts";
import type { Recipe } from "./recipe.ts";
import { boot, discAndCaliper, hub, jointHousing } from "./wheelSide.ts";

/** Every recipe, in the order in which people look for them. */
export const RECIPES: readonly Recipe[] = [
  tubeWithEyes,
  crankedArm,
  boxedArm,
  clevis,
  gussetedPlate,
  barClamp,
  hub,
  discAndCaliper,
  jointHousing,
  boot,
  casing,
  sump,
  gearbox,
  exhaustRun,
  tank,
  frameRail,
  crossTube,
];

const byName = new Map(RECIPES.map((recipe) => [recipe.name, recipe]));

export function recipeOf(made: MadeDocument): Recipe {
  const found = byName.get(made.as);
  // the schema lets no other name through
  if (!found) throw new Error(`no recipe is called ${made.as}`);
  return found;
}

/** The values of one recipe by its fields' keys: POINTs, lists of them, sizes, directions, choices. */
export type MadeValue =
  | DeepReadonly<z.infer<typeof point>>
  | readonly DeepReadonly<z.infer<typeof point>>[]
  | string
  | number;

/** How a part was made: the recipe's name and its values. Its shape is written beside it and made anew when they change. */
export interface MadeDocument {
  readonly as: string;
  readonly [key: string]: MadeValue;
}

function schemaOf(field: RecipeField): z.ZodType {
  switch (field.kind) {
    case "point":
      return point;
    case "points":
      return list(point, field.min, field.max);
    case "length":
      return field.mayBeNone ? length_mm : size_mm;
    case "angle":
      return number(field.min, field.max, "degrees");
    case "count":
      return z
        .int({ error: `a whole number from ${field.min} to ${field.max}` })
        .min(field.min, { error: `a whole number from ${field.min} to ${field.max}` })
        .max(field.max, { error: `a whole number from ${field.min} to ${field.max}` });
    case "direction":
      return direction;
    case "choice":
      return choice(field.options as [string, ...string[]]);
  }
}

const records = RECIPES.map(({ name, fields }) =>
  record({
    as: z.literal(name),
    ...Object.fromEntries(Object.entries(fields).map(([key, field]) => [key, schemaOf(field)])),
  }),
);

/** As scene files keep it. */
export const made = z.discriminatedUnion("as", records as unknown as [(typeof records)[0]], {
  error: "a recipe: a record with as",
}) as unknown as z.ZodType<MadeDocument>;
