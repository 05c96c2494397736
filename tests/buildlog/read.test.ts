import { describe, expect, it } from "vitest";
import { readCard } from "../../src/buildlog/read.ts";
import { InputError } from "../../src/scene/error.ts";
import { card } from "./fixture.ts";

function errorOf(run: () => unknown): InputError {
  try {
    run();
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error("nothing was thrown");
}

describe("a stored card", () => {
  it("comes back as it was", () => {
    const kept = card();
    expect(readCard(structuredClone(kept))).toEqual(kept);
  });

  it("keeps how far the engine had got on its way to a pose", () => {
    const [pair] = card().pairs;
    const kept = { ...card({ share: 0.375 }), pairs: [{ ...pair!, at: { ...pair!.at, share: 0.375 } }] };
    expect(kept.share).toBe(0.375);
    expect(readCard(structuredClone(kept))).toEqual(kept);
  });

  it("with a number that is not one is refused by its path", () => {
    const kept = { ...card(), pairs: [{ ...card().pairs[0], clearance_mm: Number.NaN }] };
    expect(errorOf(() => readCard(kept)).path).toBe("pairs[0].clearance_mm");
  });

  it("whose scene is not one is refused by the path within it", () => {
    const kept = { ...card(), document: { ...card().document, travel: { bump_mm: 80, droop_mm: 70 } } };
    expect(errorOf(() => readCard(kept)).path).toBe("document.travel.step_mm");
  });

  it("of a newer version is refused, not misread", () => {
    expect(errorOf(() => readCard({ ...card(), version: 3 })).code).toBe("wrong-version");
  });

  it("whose picture is something else is refused", () => {
    const kept = { ...card(), picture: { png: Uint8Array.of(60, 115, 118, 103, 0, 0, 0, 0), width: 1, height: 1 } };
    expect(errorOf(() => readCard(kept)).path).toBe("picture.png");
  });
});

describe("a card of version 1", () => {
  it("is read as one without revision, further views and photos", () => {
    const { revision: _revision, views: _views, photos: _photos, ...rest } = card();
    const old = { ...rest, version: 1 };
    expect(readCard(structuredClone(old))).toEqual({ ...old, version: 2, revision: "", views: [], photos: [] });
  });
});
