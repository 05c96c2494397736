import type { RecipeField } from "../../scene/recipes/fields.ts";
import type { Recipe } from "../../scene/recipes/recipe.ts";
import { t } from "../text/text.ts";

/** A text of a recipe: what its parts are called in a sentence, on the shelf, and what they are. The tests hold that each recipe has them. */
export function recipeText(recipe: string, what: "name" | "title" | "about"): string {
  return t(`recipes.${recipe as "clevis"}.${what}`);
}

/** The recipe's fields with their labels in the language that is shown: its own are for errors, which stay English. */
export function shownFields({ name, fields }: Recipe): Readonly<Record<string, RecipeField>> {
  const labelled = Object.entries(fields).map(([key, field]) => {
    const label = t(`recipes.${name as "clevis"}.fields.${key as "at"}`);
    return [key, { ...field, label }];
  });
  return Object.fromEntries(labelled);
}

/** One of the choices that a recipe's field gives. */
export function optionText(option: string): string {
  return t(`parts.fields.families.${option as "final drive"}`);
}
