import { describe, expect, it } from "vitest";
import { en } from "../../../src/app/text/en/index.ts";
import { RECIPES } from "../../../src/scene/recipes/made.ts";

describe("the text of ready parts", () => {
  it("has every recipe of the shelf, by the name that files write", () => {
    expect(Object.keys(en.recipes)).toEqual(RECIPES.map(({ name }) => name));
    for (const { name } of RECIPES) expect(en.recipes[name as "clevis"].name).toBe(name);
  });

  it("calls every field in English what the core's errors call it", () => {
    for (const { name, fields } of RECIPES) {
      const labels = Object.fromEntries(Object.entries(fields).map(([key, { label }]) => [key, label]));
      expect(en.recipes[name as "clevis"].fields, name).toEqual(labels);
    }
  });

  it("has every choice that a field gives", () => {
    const options = RECIPES.flatMap(({ fields }) =>
      Object.values(fields).flatMap((field) => (field.kind === "choice" ? field.options : [])),
    );
    expect(Object.keys(en.parts.fields.families).sort()).toEqual([...new Set(options)].sort());
  });
});
