import fc from "fast-check";
import type * as z from "zod";

type Def = Readonly<Record<string, unknown>> & { readonly type: string };
type Any = z.core.$ZodType;

/** Few names, so that what names something finds it now and then. */
const NAMES = [
  "upper.in",
  "upper.out",
  "a",
  "b",
  "wheel",
  "chassis",
  "carrier",
  "powertrain",
  "upper",
  "lower",
  "tyre",
  "*",
  "role:a",
];
const TEXTS = ["", "205/55R16", "scan.stl", "../../x.stl", "<b>x</b>", "\u202e", "x".repeat(600), "rest", "1"];

/**
 * Values that fit a schema by their shape: each field by itself as it should be, what one means for another left to chance. Now and
 * then a field holds what it must not.
 */
export function ofSchema(schema: Any, depth = 0): fc.Arbitrary<unknown> {
  const byDepth = made.get(schema) ?? [];
  made.set(schema, byDepth);
  byDepth[depth] ??= fc.oneof({ weight: 150, arbitrary: fitting(schema, depth) }, { weight: 1, arbitrary: ODD });
  return byDepth[depth];
}

/** What was made once, by schema and depth: to make it anew for every case takes longer than to draw the case. */
const made = new Map<Any, fc.Arbitrary<unknown>[]>();

const ODD = fc.constantFrom<unknown>(
  null,
  "",
  "x",
  0,
  -1,
  1e308,
  1e-320,
  true,
  [],
  {},
  [[]],
  [null],
  { from: "a" },
  { kind: "x" },
);

function fitting(schema: Any, depth: number): fc.Arbitrary<unknown> {
  const def = schema._zod.def as unknown as Def;
  const inner = () => ofSchema(def.innerType as Any, depth);
  switch (def.type) {
    case "object":
      return recordOf(def.shape as Record<string, Any>, depth);
    case "array": {
      const { minimum = 0 } = bagOf(schema);
      return fc.array(ofSchema(def.element as Any, depth + 1), {
        minLength: minimum,
        maxLength: minimum + (depth > 4 ? 1 : 4),
      });
    }
    case "tuple":
      return fc.tuple(...(def.items as Any[]).map((item) => ofSchema(item, depth)));
    case "string":
      return fc.oneof(
        { weight: 8, arbitrary: fc.constantFrom(...NAMES) },
        { weight: 1, arbitrary: fc.constantFrom(...TEXTS) },
        { weight: 1, arbitrary: fc.string() },
      );
    case "number":
      return numberOf(schema);
    case "boolean":
      return fc.boolean();
    case "literal":
      return fc.constantFrom(...(def.values as unknown[]));
    case "enum":
      return fc.constantFrom(...Object.values(def.entries as object));
    case "union": {
      const options = def.options as Any[];
      return fc.oneof(...options.map((option) => ofSchema(option, depth + 1)));
    }
    case "optional":
    case "exactOptional":
      return inner();
    case "nullable":
      return fc.option(inner());
    case "record":
      return fc.dictionary(fc.constantFrom(...NAMES), ofSchema(def.valueType as Any, depth + 1), { maxKeys: 5 });
    case "lazy":
      return depth > 8
        ? fc.constant([])
        : fc.constant(null).chain(() => ofSchema((def.getter as () => Any)(), depth + 1));
    default:
      return ODD;
  }
}

function recordOf(shape: Record<string, Any>, depth: number): fc.Arbitrary<unknown> {
  const required: string[] = [];
  const fields: Record<string, fc.Arbitrary<unknown>> = {};
  for (const [key, field] of Object.entries(shape)) {
    const { type } = field._zod.def as unknown as Def;
    if (type !== "optional" && type !== "exactOptional") required.push(key);
    fields[key] = fc.constant(null).chain(() => ofSchema(field, depth + 1));
  }
  const whole = fc.record(fields, { requiredKeys: required });
  return fc.oneof(
    { weight: 60, arbitrary: whole },
    { weight: 1, arbitrary: whole.map((record) => ({ ...(record as object), __defineGetter__: 1 })) },
    { weight: 1, arbitrary: whole.map((record) => Object.fromEntries(Object.entries(record as object).slice(1))) },
  );
}

interface Bag {
  readonly minimum?: number;
  readonly maximum?: number;
  readonly format?: string;
}

function bagOf(schema: Any): Bag {
  return schema._zod.bag as Bag;
}

function numberOf(schema: Any): fc.Arbitrary<number> {
  const bag = bagOf(schema);
  const [min, max] = [Math.max(-1e6, bag.minimum ?? -1e6), Math.min(1e6, bag.maximum ?? 1e6)];
  const usual = fc.integer({ min: Math.ceil(Math.max(min, -500)), max: Math.floor(Math.min(max, 500)) });
  const isWhole = bag.format !== undefined && /int/.test(bag.format);
  return fc.oneof(
    { weight: 8, arbitrary: usual },
    { weight: 4, arbitrary: isWhole ? usual : fc.double({ min, max, noNaN: true }) },
    { weight: 2, arbitrary: fc.constantFrom(min, max, 0) },
    { weight: 1, arbitrary: fc.constantFrom(-0, 1e-300, min - 1, max + 1, 0.1) },
  );
}
