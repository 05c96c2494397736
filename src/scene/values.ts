import "./withoutEval.ts";
import * as z from "zod";
import { nearestOf } from "./nearest.ts";

/** Building blocks of the scene file's schema. Each one's `error` text says what is wanted, in plain words. */

/** Far beyond any car and still within what float32 meshes can hold to 0.1 mm. */
const FARTHEST_MM = 1_000_000;

/** A record that refuses keys it does not know and names the nearest one it does. */
export function record<Fields extends z.core.$ZodLooseShape>(fields: Fields) {
  const known = Object.keys(fields);
  return z.strictObject(fields, {
    error: (issue) => {
      if (issue.code !== "unrecognized_keys") return "a record in braces { }";
      const [unknown] = issue.keys as string[];
      const nearest = nearestOf(unknown ?? "", known);
      return `${nearest ? `${nearest}? ` : ""}Known here: ${known.join(", ")}`;
    },
  });
}

export function number(min: number, max: number, unit = "") {
  const words = `a number from ${min} to ${max}${unit && ` ${unit}`}`;
  return z.number({ error: words }).min(min, { error: words }).max(max, { error: words });
}

export function above(min: number, max: number, unit = "") {
  const words = `a number above ${min}, at most ${max}${unit && ` ${unit}`}`;
  return z.number({ error: words }).gt(min, { error: words }).max(max, { error: words });
}

/** A size of a part. */
export const size_mm = above(0, 100_000, "mm");
export const angle_deg = number(-360, 360, "degrees");
/** A length that may be nothing at all. */
export const length_mm = number(0, 100_000, "mm");

const coordinate = number(-FARTHEST_MM, FARTHEST_MM, "mm");

export function threeOf<Part extends z.ZodType>(part: Part, words: string) {
  return z.tuple([part, part, part], { error: words });
}

export const vector_mm = threeOf(coordinate, "[x, y, z] in mm");
export const turn_deg = threeOf(angle_deg, "[x, y, z] in degrees");
export const direction = threeOf(number(-1e6, 1e6), "a direction [x, y, z]");

export function text(max: number, words = "a text") {
  return z.string({ error: words }).max(max, { error: `${words} of at most ${max} characters` });
}

// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is refused
const NAME = /^(?! )[^\u0000-\u001f\u007f-\u009f\u2028\u2029]+(?<! )$/;

/** The name of a point or the id of a part. */
export const name = text(80, "a name").regex(NAME, {
  error: "a name of 1 to 80 characters on one line, without a blank at either end",
});

export const point = z.union([vector_mm, name, record({ from: name, by: vector_mm })], {
  error: 'a point: [x, y, z] in mm, the name of a point, or { "from": NAME, "by": [dx, dy, dz] }',
});

export function choice<const Options extends readonly [string, ...string[]]>(options: Options) {
  return z.enum(options, { error: `one of ${options.join(", ")}` });
}

export function list<Item extends z.ZodType>(item: Item, min: number, max: number) {
  const words = min === 0 ? `a list of at most ${max}` : `a list of ${min} to ${max}`;
  return z.array(item, { error: words }).min(min, { error: words }).max(max, { error: words });
}

/** The same data, not to be written to. */
export type DeepReadonly<T> = T extends string | number | boolean | null | undefined
  ? T
  : { readonly [Key in keyof T]: DeepReadonly<T[Key]> };
