import type { Side } from "../scene/scene.ts";

export interface Folded<Item> {
  readonly item: Item;
  readonly side: Side | "both";
}

interface Twins<Item> {
  /** The same for the left and the right one of a pair of twins, and for nothing else. */
  name(item: Item): string;
  side(item: Item): Side | "both";
  /** Whether the two are to be told as one. */
  alike(one: Item, other: Item): boolean;
}

/** What is alike on both sides is told once, where the first of the two stands; the order stays. */
export function foldTwins<Item>(items: readonly Item[], { name, side, alike }: Twins<Item>): Folded<Item>[] {
  const named = new Map<string, Item[]>();
  for (const item of items) {
    const ofName = named.get(name(item));
    if (ofName) ofName.push(item);
    else named.set(name(item), [item]);
  }
  const done = new Set<Item>();
  return items.flatMap((item): Folded<Item>[] => {
    if (done.has(item)) return [];
    const twin = named
      .get(name(item))!
      .find((other) => !done.has(other) && side(other) !== side(item) && alike(item, other));
    if (twin === undefined) return [{ item, side: side(item) }];
    done.add(twin);
    return [{ item, side: "both" }];
  });
}
