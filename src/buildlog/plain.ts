/**
 * A copy of plain data (records, lists, texts, numbers, bytes) that JSON gives back exactly: what is undefined is left out, and −0,
 * which JSON cannot tell from 0, is 0. Bytes are copied.
 */
export function plain<T>(value: T): T {
  return copied(value) as T;
}

function copied(value: unknown): unknown {
  if (value === 0) return 0;
  if (value === null || typeof value !== "object") return value;
  if (value instanceof Uint8Array) return value.slice();
  if (Array.isArray(value)) return value.map(copied);
  const copy: Record<string, unknown> = {};
  for (const [key, item] of Object.entries(value)) {
    if (item === undefined) continue;
    // the one name that an assignment would not keep
    if (key === "__proto__")
      Object.defineProperty(copy, key, { value: copied(item), enumerable: true, writable: true });
    else copy[key] = copied(item);
  }
  return copy;
}

/** `value` with the keys of its records in the order that `pattern` has them, those that it lacks at the end. */
export function inOrderOf<T>(value: T, pattern: unknown): T {
  return ordered(value, pattern) as T;
}

function ordered(value: unknown, pattern: unknown): unknown {
  if (!isContainer(value) || !isContainer(pattern)) return value;
  if (Array.isArray(value)) return value.map((item, i) => ordered(item, Reflect.get(pattern, i)));
  const keys = [...new Set([...Object.keys(pattern), ...Object.keys(value)])].filter((key) =>
    Object.hasOwn(value, key),
  );
  return Object.fromEntries(keys.map((key) => [key, ordered(Reflect.get(value, key), Reflect.get(pattern, key))]));
}

function isContainer(value: unknown): value is object {
  return typeof value === "object" && value !== null && !(value instanceof Uint8Array);
}
