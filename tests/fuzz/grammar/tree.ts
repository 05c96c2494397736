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
type Container = Readonly<Record<string, unknown>>;

/** A place in the tree: at each level the share of the way through the keys; it ends where the level has none, or the way does. */
const way: fc.Arbitrary<Way> = fc.array(fc.double({ min: 0, max: 0.999999, noNaN: true }), {
  minLength: 1,
  maxLength: 7,
});

/** The keys from the top down to that place. */
function keysTo(tree: unknown, steps: Way): string[] {
  const path: string[] = [];
  let at: unknown = tree;
  for (const step of steps) {
    if (!isContainer(at)) break;
    const keys = Object.keys(at);
    if (keys.length === 0) break;
    const key = keys[Math.floor(step * keys.length)]!;
    path.push(key);
    at = at[key];
  }
  return path;
}

function isContainer(value: unknown): value is Container {
  return typeof value === "object" && value !== null && !(value instanceof Uint8Array);
}

/** What the holder of a value becomes; nothing that is there is written to, so that trees share what they have in common. */
type Change = (holder: Container, key: string, tree: unknown) => Container;

const change: fc.Arbitrary<Change> = fc.oneof(
  {
    weight: 5,
    arbitrary: fc.constantFrom(...HOSTILE).map(
      (value): Change =>
        (holder, key) =>
          put(holder, key, value),
    ),
  },
  {
    weight: 4,
    arbitrary: fc.oneof(fc.double({ min: 0, max: 2, noNaN: true }), fc.constantFrom(-1, 0, 1e3, 1e-3)).map(
      (factor): Change =>
        (holder, key) => {
          const value = holder[key];
          return typeof value === "number" ? put(holder, key, value * factor) : holder;
        },
    ),
  },
  { weight: 2, arbitrary: fc.constant<Change>(remove) },
  {
    weight: 2,
    arbitrary: fc.constantFrom("__proto__", "constructor", "x", "", "kind", "id", "made", "\u001b").map(
      (name): Change =>
        (holder, key) =>
          put(remove(holder, key), name, holder[key]),
    ),
  },
  {
    weight: 3,
    arbitrary: way.map(
      (other): Change =>
        (holder, key, tree) =>
          put(holder, key, valueAt(tree, keysTo(tree, other))),
    ),
  },
  {
    weight: 2,
    arbitrary: fc.integer({ min: 1, max: 40 }).map(
      (times): Change =>
        (holder, key) =>
          Array.isArray(holder) ? asContainer([...holder, ...Array(times).fill(holder[Number(key)])]) : holder,
    ),
  },
);

function asContainer(list: unknown[]): Container {
  return list as unknown as Container;
}

function valueAt(tree: unknown, path: readonly string[]): unknown {
  return path.reduce((at, key) => (at as Container)[key], tree);
}

function copy(holder: Container): Container {
  return Array.isArray(holder) ? asContainer([...holder]) : { ...holder };
}

function put(holder: Container, key: string, value: unknown): Container {
  return Object.defineProperty(copy(holder), key, { value, enumerable: true, configurable: true, writable: true });
}

function remove(holder: Container, key: string): Container {
  if (Array.isArray(holder)) return asContainer([...holder].filter((_, i) => i !== Number(key)));
  const { [key]: _gone, ...rest } = holder;
  return rest;
}

function changed(tree: unknown, at: unknown, [key, ...deeper]: readonly string[], make: Change): unknown {
  const holder = at as Container;
  return deeper.length === 0 ? make(holder, key!, tree) : put(holder, key!, changed(tree, holder[key!], deeper, make));
}

/** One of the samples with one to five values of it changed, moved, doubled or left out. */
export function spoiltTree<T>(samples: readonly T[]): fc.Arbitrary<T> {
  const changes = fc.array(fc.tuple(way, change), { minLength: 1, maxLength: 5 });
  return fc.tuple(fc.constantFrom(...samples), changes).map(([sample, all]) =>
    all.reduce((tree, [steps, make]) => {
      const path = keysTo(tree, steps);
      return path.length > 0 ? (changed(tree, tree, path, make) as T) : tree;
    }, sample),
  );
}
