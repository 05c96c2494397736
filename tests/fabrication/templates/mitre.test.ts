import fc from "fast-check";
import { BufferAttribute, BufferGeometry, DoubleSide, Mesh, Raycaster, Vector3 } from "three";
import { describe, expect, it } from "vitest";
import { type Meets, meetingAngle, reachOf, type TubeEnd, wallWay } from "../../../src/fabrication/templates/mitre.ts";
import { buildSolid } from "../../../src/geometry/buildSolid.ts";
import { add, cross, normalise, scale, squareTo, type Vec3 } from "../../../src/maths/vec3.ts";
import type { Shape } from "../../../src/scene/scene.ts";
import { agrees } from "../../truth/agreement.ts";

const SAG_mm = 0.005;
const angle = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** A tube of outside radius r towards the origin's neighbourhood, at an angle to the Y axis and beside it by `beside`. */
function tubeAt(angle_deg: number, beside: number, r: number, bore: number): TubeEnd {
  const a = (angle_deg * Math.PI) / 180;
  const out: Vec3 = [Math.sin(a), Math.cos(a), 0];
  return { at: [0, 0, beside], out, radius_mm: r, bore_mm: bore, zero: normalise(cross(out, [0, 0, 1])) };
}

const header = (R: number): Meets => ({ kind: "round", at: [0, 0, 0], axis: [0, 1, 0], radius_mm: R });

function meshOf(shape: Shape): Mesh {
  const solid = buildSolid(shape, {
    tessellation_mm: SAG_mm,
    wheel: null as never,
    meshFiles: new Map(),
    path: "shape",
  });
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(solid.positions, 3));
  geometry.setIndex(new BufferAttribute(solid.indices, 1));
  const mesh = new Mesh(geometry);
  (mesh.material as { side?: number }).side = DoubleSide;
  return mesh;
}

/** Where a line of the wall first meets the mesh, along from the tube's end, by three's own ray casting. */
function hit(mesh: Mesh, end: TubeEnd, rho: number, turn: number): number {
  const back = 400;
  const from = add(add(end.at, scale(wallWay(end, turn), rho)), scale(end.out, -back));
  const [first] = new Raycaster(new Vector3(...from), new Vector3(...end.out)).intersectObject(mesh);
  return first ? first.distance - back : Number.POSITIVE_INFINITY;
}

describe("a tube against a round part", () => {
  it("is the usual coping curve where the axes cross and the wall is thin", () => {
    // z = (√(R² − r²·sin²φ) + r·cos φ·cos θ) / sin θ, the common closed form of two cylinders whose axes cross (descriptive
    // geometry, any pattern-drafting book; from memory), z back along the tube from where the axes cross
    fc.assert(
      fc.property(angle(25, 155), angle(5, 30), angle(1.01, 3), angle(0, 2 * Math.PI), (theta, r, times, phi) => {
        const R = r * times;
        const end = tubeAt(theta, 0, r, r);
        const t = (theta * Math.PI) / 180;
        const usual = (Math.sqrt(R * R - (r * Math.sin(phi)) ** 2) + r * Math.cos(phi) * Math.cos(t)) / Math.sin(t);
        agrees("wrapCut", reachOf(end, header(R), phi).along_mm, -usual, 9);
      }),
    );
  });

  it("is where the drawn meshes meet, at any angle, offset and wall", () => {
    const R = 22;
    const mesh = meshOf({
      kind: "cylinder",
      at: null,
      turn_deg: null,
      from: [0, -300, 0],
      to: [0, 300, 0],
      diameter_mm: 2 * R,
    });
    fc.assert(
      fc.property(
        angle(35, 145),
        angle(-4, 4),
        angle(6, 17),
        angle(0.5, 5),
        angle(0, 2 * Math.PI),
        (theta, beside, r, wall, phi) => {
          const end = tubeAt(theta, beside, r, r - wall);
          const { along_mm, passes } = reachOf(end, header(R), phi);
          expect(passes).toBe(false);
          // the part of the wall that comes first, by many lines through it
          const lines = Array.from({ length: 41 }, (_, i) => hit(mesh, end, r - wall + (wall * i) / 40, phi));
          expect(Math.abs(along_mm - Math.min(...lines))).toBeLessThan(0.05);
        },
      ),
      { numRuns: 60 },
    );
  });

  it("says where the tube is wider than what it meets", () => {
    expect(reachOf(tubeAt(90, 0, 20, 18), header(15), Math.PI / 2).passes).toBe(true);
    expect(reachOf(tubeAt(90, 0, 20, 18), header(15), 0).passes).toBe(false);
  });
});

describe("a tube against a flat part", () => {
  it("is where the drawn meshes meet", () => {
    const mesh = meshOf({
      kind: "box",
      at: [0, 0, 0],
      turn_deg: [20, -35, 10],
      size_mm: [300, 300, 12],
      edge_mm: null,
    });
    // the box's upper face, turned as the box is (intrinsic X, Y, Z)
    const [a, b] = [(20 * Math.PI) / 180, (-35 * Math.PI) / 180];
    const normal: Vec3 = [Math.sin(b), -Math.sin(a) * Math.cos(b), Math.cos(a) * Math.cos(b)];
    const meets: Meets = { kind: "flat", at: scale(normal, 6), normal };
    fc.assert(
      fc.property(angle(0, 2 * Math.PI), angle(-0.4, 0.4), angle(-0.4, 0.4), (phi, x, y) => {
        const out = normalise([x, y, -1]);
        const end: TubeEnd = { at: [0, 0, 0], out, radius_mm: 19, bore_mm: 16.5, zero: squareTo(out) };
        const first = Math.min(hit(mesh, end, 19, phi), hit(mesh, end, 16.5, phi));
        expect(reachOf(end, meets, phi).along_mm).toBeCloseTo(first, 3);
      }),
      { numRuns: 60 },
    );
  });

  it("is square at 90°, and one diameter deep at 45°", () => {
    const end = tubeAt(90, 0, 15, 15);
    agrees("meetingAngle", meetingAngle(end, { kind: "flat", at: [0, 0, 0], normal: [1, 0, 0] }), 90, 9);
    const slant: Meets = { kind: "flat", at: [0, 0, 0], normal: normalise([-1, 1, 0]) };
    const reaches = [0, Math.PI].map((phi) => reachOf(end, slant, phi).along_mm);
    expect(Math.abs(reaches[0]! - reaches[1]!)).toBeCloseTo(30, 9);
  });
});
