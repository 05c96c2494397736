import fc from "fast-check";

/** What stands in for a value of a file: of another kind, too large, too small, or meant to do harm. */
export const HOSTILE: readonly unknown[] = [
  ...[null, true, 0, -0, 1, -1, 0.5, 1e-320, 1e6, -1e6, 1e15, 1e308, 2 ** 53, "", " ", "0", "NaN"],
  ...[
    [],
    {},
    [[]],
    [null],
    { x: 1 },
    "constructor",
    "__proto__",
    "toString",
    "rest",
    "chassis",
    "*",
    "role:x",
    "../../x.stl",
  ],
  ...[
    "C:\\x.stl",
    "/etc/x.stl",
    "<script>alert(1)</script>",
    "\u001b[2J",
    "\u202ex",
    "\ud800",
    "x".repeat(100),
    "x".repeat(30_000),
  ],
  deep(70),
  deep(3000),
];

function deep(levels: number): unknown {
  let value: unknown = 1;
  for (let i = 0; i < levels; i++) value = [value];
  return value;
}

type Way = readonly number[];
type Container = Record<string, unknown>;

/** A place in the tree: at each level the share of the way through the keys; it ends where the level has none, or the way does. */
const way: fc.Arbitrary<Way> = fc.array(fc.double({ min: 0, max: 0.999999, noNaN: true }), {
  minLength: 1,
  maxLength: 7,
});

function placeAt(tree: unknown, steps: Way): { holder: Container; key: string } | null {
  let holder: Container | null = null;
  let key = "";
  let at: unknown = tree;
  for (const step of steps) {
    if (typeof at !== "object" || at === null || at instanceof Uint8Array) break;
    const keys = Object.keys(at);
    if (keys.length === 0) break;
    holder = at as Container;
    key = keys[Math.floor(step * keys.length)]!;
    at = holder[key];
  }
  return holder && { holder, key };
}

type Change = (tree: unknown, place: { holder: Container; key: string }) => void;

const change: fc.Arbitrary<Change> = fc.oneof(
  {
    weight: 5,
    arbitrary: fc.constantFrom(...HOSTILE).map(
      (value): Change =>
        (_, { holder, key }) =>
          put(holder, key, structuredClone(value)),
    ),
  },
  {
    weight: 4,
    arbitrary: fc.oneof(fc.double({ min: 0, max: 2, noNaN: true }), fc.constantFrom(-1, 0, 1e3, 1e-3)).map(
      (factor): Change =>
        (_, { holder, key }) => {
          if (typeof holder[key] === "number") holder[key] = (holder[key] as number) * factor;
        },
    ),
  },
  { weight: 2, arbitrary: fc.constant<Change>((_, { holder, key }) => remove(holder, key)) },
  {
    weight: 2,
    arbitrary: fc.constantFrom("__proto__", "constructor", "x", "", "kind", "id", "made", "\u001b").map(
      (name): Change =>
        (_, { holder, key }) => {
          const value = holder[key];
          remove(holder, key);
          put(holder, name, value);
        },
    ),
  },
  {
    weight: 3,
    arbitrary: way.map(
      (other): Change =>
        (tree, { holder, key }) => {
          const from = placeAt(tree, other);
          if (from) put(holder, key, structuredClone(from.holder[from.key]));
        },
    ),
  },
  {
    weight: 2,
    arbitrary: fc.integer({ min: 1, max: 40 }).map(
      (times): Change =>
        (_, { holder, key }) => {
          if (Array.isArray(holder)) for (let i = 0; i < times; i++) holder.push(structuredClone(holder[Number(key)]));
        },
    ),
  },
);

function put(holder: Container, key: string, value: unknown): void {
  Object.defineProperty(holder, key, { value, enumerable: true, configurable: true, writable: true });
}

function remove(holder: Container, key: string): void {
  if (Array.isArray(holder)) holder.splice(Number(key), 1);
  else delete holder[key];
}

/** One of the samples with one to five values of it changed, moved, doubled or left out. */
export function spoiltTree<T>(samples: readonly T[]): fc.Arbitrary<T> {
  const changes = fc.array(fc.tuple(way, change), { minLength: 1, maxLength: 5 });
  return fc.tuple(fc.constantFrom(...samples), changes).map(([sample, all]) => {
    const tree = structuredClone(sample);
    for (const [steps, make] of all) {
      const place = placeAt(tree, steps);
      if (place) make(tree, place);
    }
    return tree;
  });
}
