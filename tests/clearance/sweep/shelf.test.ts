import { describe, expect, it } from "vitest";
import { buildTree } from "../../../src/clearance/kernel.ts";
import { clippingOf, TreeShelf } from "../../../src/clearance/sweepShelf.ts";
import { bytesOf } from "../../../src/clearance/treeMask.ts";
import { box } from "../kernel/meshes.ts";

const bodyOf = (name: string) => ({ key: name, content: name, solid: box([40, 30, 20]) });
const ONE = bytesOf(buildTree(bodyOf("box").solid));
const SPARE = 4;
/** The room for 100 trees is looked through at each: what is told here holds to the tree. */
const shelfFor100 = () => new TreeShelf(undefined, 100 * ONE, SPARE * ONE);
const names = (what: string, count: number) => Array.from({ length: count }, (_, i) => `${what} ${i}`);
const whole = (content: string) => ({ content, clipping: null });

describe("a shelf of trees", () => {
  it("keeps what the newest check needs, though it is used less, and little else", () => {
    const shelf = shelfFor100();
    const needed = names("needed", 20);
    shelf.keepFor(needed.map(whole));
    for (const name of needed) shelf.prepare(bodyOf(name));
    const others = names("other", 30);
    for (const name of others) shelf.prepare(bodyOf(name));
    expect(needed.filter((name) => shelf.has(name, null))).toEqual(needed);
    // the newest came after the last look
    expect(others.filter((name) => shelf.has(name, null))).toEqual(others.slice(-SPARE - 1));
  });

  it("lets go of what only an earlier check needed once there is a newer one, the longest unused first", () => {
    const shelf = shelfFor100();
    const drawings = names("drawing of a link", 50);
    for (const name of drawings) {
      shelf.keepFor([whole("frame"), whole(name)]);
      for (const each of ["frame", name]) shelf.prepare(bodyOf(each));
    }
    expect(shelf.has("frame", null)).toBe(true);
    expect(drawings.filter((name) => shelf.has(name, null))).toEqual(drawings.slice(-SPARE - 1));
  });

  it("lets go of clippings of a body that stays, and keeps the one that is needed with the tree it was cut from", () => {
    const shelf = shelfFor100();
    const ballAt = (x: number) => ({ centre: [x, 0, 0] as const, radius_mm: 15 });
    const places = Array.from({ length: 60 }, (_, i) => i / 10);
    for (const x of places) {
      shelf.keepFor([whole("hub"), { content: "hub", clipping: clippingOf([ballAt(x)]) }]);
      shelf.clip(bodyOf("hub"), [ballAt(x)]);
    }
    const kept = places.filter((x) => shelf.has("hub", clippingOf([ballAt(x)])));
    expect(kept.at(-1)).toBe(places.at(-1));
    expect(kept.length).toBeLessThan(10);
    expect(shelf.has("hub", null)).toBe(true);
  });

  it("goes beyond its spare room for what is needed, never beyond all of its room", () => {
    const shelf = shelfFor100();
    const needed = names("needed", 150);
    shelf.keepFor(needed.map(whole));
    for (const name of needed) shelf.prepare(bodyOf(name));
    expect(needed.filter((name) => shelf.has(name, null))).toEqual(needed.slice(-100));
  });

  it("keeps all it has room for where no check told what it needs", () => {
    const shelf = shelfFor100();
    const bodies = names("body", 90);
    for (const name of bodies) shelf.prepare(bodyOf(name));
    expect(bodies.filter((name) => shelf.has(name, null))).toEqual(bodies);
  });
});
