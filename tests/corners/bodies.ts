import { add, cross, mix, normalise, scale, squareTo, subtract, type Vec3 } from "../../src/maths/vec3.ts";
import type { BodyDocument, ShapeDocument } from "../../src/scene/document.ts";
import type { Dice } from "./dice.ts";

type Triple = [number, number, number];
const three = (p: Vec3): Triple => [p[0], p[1], p[2]];

/** The mesh file that some scenes have beside them. */
export const SCAN_FILE = "casting.stl";

/** A shape of any kind of some size around a place; `scan`: it may be the mesh file. */
export function drawShape(at: Vec3, size: number, dice: Dice, scan: boolean): ShapeDocument {
  const along = normalise(dice.near([0, 0, 0], 1));
  const [from, to] = [add(at, scale(along, size)), add(at, scale(along, -size))].map(three) as [Triple, Triple];
  const turn = dice.chance(0.5) ? { turn_deg: three(dice.near([0, 0, 0], 90)) } : {};
  const thick = () => dice.between(0.2, 1) * size;
  const kinds: (() => ShapeDocument)[] = [
    () => ({ kind: "sphere", at: three(at), diameter_mm: size }),
    () => ({ kind: "cylinder", from, to, diameter_mm: thick() }),
    () => ({ kind: "capsule", from, to, diameter_mm: thick() }),
    () => ({ kind: "cone", from, to, fromDiameter_mm: dice.chance(0.3) ? 0 : thick(), toDiameter_mm: thick() }),
    () => ({
      kind: "box",
      at: three(at),
      ...turn,
      size_mm: [thick() * 2, thick() * 2, thick() * 2],
      ...(dice.chance(0.3) ? { edge_mm: 0.05 * size } : {}),
    }),
    () => ({
      kind: "torus",
      at: three(at),
      ...turn,
      diameter_mm: 1.6 * size,
      section_mm: dice.between(0.1, 0.4) * size,
    }),
    () => bentTube(from, to, at, size, dice),
    () => plate(at, along, size, dice),
    () => ({
      kind: "hull",
      spheres: [0, 1, 2].map(() => ({ at: three(dice.near(at, size)), diameter_mm: thick() })),
    }),
    () => ({ kind: "hull", points: Array.from({ length: 9 }, () => three(dice.near(at, size))) }),
    () => ({
      kind: "group",
      parts: [
        { kind: "box", at: three(at), ...turn, size_mm: [thick(), thick(), thick()] },
        { kind: "capsule", from, to, diameter_mm: 0.2 * size },
      ],
    }),
  ];
  if (scan) kinds.push(() => ({ kind: "mesh", at: three(at), ...turn, file: SCAN_FILE, unit: "mm" }));
  return dice.pick(kinds)();
}

function bentTube(from: Triple, to: Triple, at: Vec3, size: number, dice: Dice): ShapeDocument {
  const off = scale(squareTo(normalise(subtract(to, from))), 0.6 * size);
  // with its bend drawn at the coarsest of these scenes' tessellations
  const diameter_mm = Math.max(4, dice.between(0.12, 0.25) * size);
  const tube = { kind: "tube" as const, path: [from, three(add(at, off)), to], diameter_mm };
  return dice.chance(0.5) ? { ...tube, bend_mm: 1.5 * diameter_mm, wall_mm: 0.1 * diameter_mm } : tube;
}

function plate(at: Vec3, along: Vec3, size: number, dice: Dice): ShapeDocument {
  const u = along;
  const v = cross(u, squareTo(u));
  const [a, b] = [dice.between(0.3, 1) * size, dice.between(0.3, 1) * size];
  const hole = 0.15 * Math.min(a, b);
  return {
    kind: "prism",
    outline: [
      [-a, -b],
      [a, -b],
      [a, 0.2 * b],
      [0.3 * a, b],
      [-a, b],
    ],
    ...(dice.chance(0.4)
      ? {
          holes: [
            [
              [hole, 0],
              [0, hole],
              [-hole, 0],
              [0, -hole],
            ],
          ],
        }
      : {}),
    thickness_mm: dice.between(2, 12),
    origin: three(at),
    u: three(u),
    v: three(v),
  };
}

/** Parts on everything that a part can be on, most of them near to where something of the corner is. */
export function drawBodies(
  mounts: readonly string[],
  lines: readonly (readonly [Vec3, Vec3])[],
  dice: Dice,
  scan: boolean,
): BodyDocument[] {
  const count = 3 + dice.below(5);
  return Array.from({ length: count }, (_, i): BodyDocument => {
    const on = dice.chance(0.45) ? "chassis" : dice.chance(0.4) ? "powertrain" : dice.pick(mounts);
    const [from, to] = dice.pick(lines);
    const size = dice.between(12, 70);
    const away = scale(normalise(dice.near([0, 0, 0], 1)), size + dice.between(-10, 45));
    const at = add(mix(from, to, dice.between(0.1, 0.9)), away);
    return {
      id: `part-${i + 1}`,
      on,
      shape: drawShape(at, size, dice, scan),
      ...(dice.chance(0.3) ? { role: dice.pick(["bracket", "pipe", "guard"]) } : {}),
      ...(on === "chassis" || on === "powertrain" ? { mirror: dice.chance(0.5) } : {}),
    };
  });
}
