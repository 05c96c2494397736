/** What turns one plain value (as JSON has them) into another; written so that a small edit of a large value is small. */
export type Change =
  | { readonly set: unknown }
  | {
      readonly fields: readonly (readonly [key: string, change: Change])[];
      /** All keys of the new record in their order, where that is not the old order. */
      readonly order?: readonly string[];
    }
  | { readonly items: readonly (readonly [index: number, change: Change])[] }
  | { readonly at: number; readonly drop: number; readonly put: readonly unknown[] };

/** null: there is no difference. What both share (the very same object) is not looked into. */
export function changeBetween(before: unknown, now: unknown): Change | null {
  if (Object.is(before, now)) return null;
  if (Array.isArray(before) && Array.isArray(now)) {
    return before.length === now.length ? itemsBetween(before, now) : splice(before, now);
  }
  if (isRecord(before) && isRecord(now)) return fieldsBetween(before, now);
  return { set: now };
}

/** The value after the change; shares with `before` all that the change does not touch. */
export function changed(before: unknown, change: Change): unknown {
  if ("set" in change) return change.set;
  if ("put" in change) {
    const list = before as readonly unknown[];
    return [...list.slice(0, change.at), ...change.put, ...list.slice(change.at + change.drop)];
  }
  if ("items" in change) {
    const list = [...(before as readonly unknown[])];
    for (const [index, item] of change.items) list[index] = changed(list[index], item);
    return list;
  }
  const old = before as Readonly<Record<string, unknown>>;
  const fields = new Map(change.fields);
  return Object.fromEntries(
    (change.order ?? Object.keys(old)).map((key) => {
      const field = fields.get(key);
      return [key, field ? changed(Object.hasOwn(old, key) ? old[key] : undefined, field) : old[key]];
    }),
  );
}

function itemsBetween(before: readonly unknown[], now: readonly unknown[]): Change | null {
  const items: [number, Change][] = [];
  for (let i = 0; i < now.length; i++) {
    const item = changeBetween(before[i], now[i]);
    if (item) items.push([i, item]);
  }
  return items.length > 0 ? { items } : null;
}

function splice(before: readonly unknown[], now: readonly unknown[]): Change {
  const most = Math.min(before.length, now.length);
  let head = 0;
  while (head < most && Object.is(before[head], now[head])) head++;
  let tail = 0;
  while (tail < most - head && Object.is(before.at(-1 - tail), now.at(-1 - tail))) tail++;
  return { at: head, drop: before.length - head - tail, put: now.slice(head, now.length - tail) };
}

function fieldsBetween(before: Record<string, unknown>, now: Record<string, unknown>): Change | null {
  const fields: [string, Change][] = [];
  const [old, keys] = [Object.keys(before), Object.keys(now)];
  for (const key of keys) {
    const field = Object.hasOwn(before, key) ? changeBetween(before[key], now[key]) : { set: now[key] };
    if (field) fields.push([key, field]);
  }
  const sameOrder = old.length === keys.length && old.every((key, i) => key === keys[i]);
  if (sameOrder) return fields.length > 0 ? { fields } : null;
  return { fields, order: keys };
}

function isRecord(value: unknown): value is Record<string, unknown> {
  if (typeof value !== "object" || value === null) return false;
  const prototype = Object.getPrototypeOf(value);
  return prototype === Object.prototype || prototype === null;
}
