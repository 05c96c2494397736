import { describe, expect, it } from "vitest";
import type { ModelBody } from "../../src/check/model.ts";
import { buildSolid } from "../../src/geometry/buildSolid.ts";
import { buffersOfBodies, buffersOfContact, drawnBodies, drawnContact } from "../../src/work/drawn.ts";

const at = { at: null, turn_deg: null } as const;
const wheel = {
  centre: [0, 700, 300],
  tyre: "205/55R16",
  rimWidth_in: 7,
  rimOffset_mm: 40,
  toe_deg: 0,
  camber_deg: 0,
} as const;
const context = { tessellation_mm: 0.5, wheel, meshFiles: new Map() };
const ball = buildSolid({ kind: "sphere", diameter_mm: 40, ...at }, context);
const box = buildSolid({ kind: "box", size_mm: [30, 20, 10], edge_mm: null, ...at }, context);

function body(key: string, content: string, look: ModelBody["look"] = null): ModelBody {
  const solid = content === "ball" ? ball : box;
  return { key, id: key, side: "both", mount: "chassis", group: "chassis", role: null, look, solid, content };
}

describe("bodies on their way to the page", () => {
  it("bring what is drawn of them, one drawing for equal content, and nothing that the page has", () => {
    const [a, b, c] = drawnBodies([body("a", "ball"), body("b", "ball"), body("c", "box")], new Set(["box"]));
    expect(a!.drawn).toBeDefined();
    expect(b!.drawn).toBe(a!.drawn);
    expect(c).toMatchObject({ key: "c", solid: null });
    expect(c!.drawn).toBeUndefined();
  });

  it("bring a box with eight corners as twenty-four, its faces flat, whatever the corners share", () => {
    const { drawn } = drawnBodies([body("c", "box")], new Set())[0]!;
    expect(drawn!.positions.length / 3).toBe(24);
    for (let v = 0; v < 72; v += 3) {
      const along = [0, 1, 2].map((axis) => Math.abs(drawn!.normals[v + axis]!)).sort();
      expect(along).toEqual([0, 0, 1]);
    }
  });

  it("hand over buffers that a message can move, each once, and keep the solids", () => {
    const sent = drawnBodies([body("a", "ball"), body("b", "ball"), body("t", "box", "coil")], new Set());
    const moved = structuredClone(sent, { transfer: buffersOfBodies(sent) });
    expect(sent[0]!.drawn!.positions.length).toBe(0);
    expect(ball.positions.length).toBeGreaterThan(0);
    expect(moved[0]!.drawn).toBe(moved[1]!.drawn);
    expect(moved[2]!.drawn).toBeUndefined();
  });
});

describe("a contact on its way to the page", () => {
  it("keeps at every corner of every triangle the place and the clearance that it had", () => {
    const clearance_mm = Float32Array.from(ball.positions.filter((_, i) => i % 3 === 2));
    const patch = { positions: ball.positions, indices: ball.indices, clearance_mm, area_mm2: 12 };
    const drawn = drawnContact({ a: patch, b: patch, crossing: [Float32Array.of(0, 0, 0, 1, 0, 0)] });
    for (const [c, v] of ball.indices.entries()) {
      const w = drawn.a.indices[c]!;
      expect(drawn.a.positions.slice(3 * w, 3 * w + 3)).toEqual(ball.positions.slice(3 * v, 3 * v + 3));
      expect(drawn.a.clearance_mm[w]).toBe(clearance_mm[v]);
    }
    expect(drawn.a.area_mm2).toBe(12);
    const moved = structuredClone(drawn, { transfer: buffersOfContact(drawn) });
    expect(moved.crossing[0]).toEqual(Float32Array.of(0, 0, 0, 1, 0, 0));
  });
});
