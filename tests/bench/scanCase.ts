import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { BodyDocument, SceneDocument, ShapeDocument } from "../../src/scene/document.ts";
import { readScene } from "../../src/scene/read.ts";
import { randomOf } from "../kinematics/random.ts";
import { bumpyMesh } from "./meshes.ts";

/** A real corner: wishbones with a toe link, damper, bar, shaft, frame, engine, in two powertrain poses beside rest. */
const CORNER = fileURLToPath(new URL("../../scenes/3-double-wishbones-toe-link.json", import.meta.url));

export const ENGINE_SCAN = "engine-scan";
export const BODY_SCAN = "body-scan";
/** A box on the frame that reaches this deep into the engine's scan at rest, but for the scan's own waves. */
export const INTRUDER = "intruder";
const INTRUSION_mm = 15;

/** Bodies of the whole car but the scans: those of the corner's own members are among them. */
const PARTS = 300;
const MOVING_PARTS = 26;

interface ScanMesh {
  readonly points: readonly (readonly [number, number, number])[];
  readonly triangles: readonly number[];
}

/**
 * Writes a scene of one whole corner with some 300 parts (or so many), of which some 50 move with the wheel, and two scans of about so
 * many triangles each, both open and with holes as a phone's are: the wheel house on the chassis, which the links pass at
 * their joints and the shaft by a hole; and the engine on the powertrain. `more`: further scans of that size, which stand before
 * the engine. Answers the scene's path.
 */
export function writeScanCase(folder: string, triangles: number, parts = PARTS, more = 0): string {
  mkdirSync(folder, { recursive: true });
  for (let i = 0; i < more; i++) writeFileSync(join(folder, `more-${i}.stl`), stlOf(engineScan(triangles)));
  writeFileSync(join(folder, "engine.stl"), stlOf(engineScan(triangles)));
  writeFileSync(join(folder, "body.stl"), stlOf(bodyScan(triangles)));
  const path = join(folder, "scans.json");
  writeFileSync(path, JSON.stringify(scanScene(parts, more)));
  return path;
}

const ENGINE_CENTRE = [250, 20, 470] as const;
const ENGINE_HALF = [170, 220, 130] as const;

function engineScan(triangles: number): ScanMesh {
  const cells = Math.round(Math.sqrt(triangles / 12));
  const whole = bumpyMesh(ENGINE_CENTRE, ENGINE_HALF, 4, cells, randomOf(11));
  // what the scanner did not see: from below, and here and there
  const random = randomOf(13);
  const holes = Array.from({ length: 9 }, () => ({
    at: whole.points[Math.floor(random() * whole.points.length)]!,
    radius: 8 + 14 * random(),
  }));
  const top = ENGINE_CENTRE[2] - ENGINE_HALF[2] + 12;
  return without(whole, (p) => (p[2] < top && Math.abs(p[1]) < 80) || isInHole(p, holes));
}

const HOUSE_AXIS = { x: 10, z: 312 };
const WALL_Y_mm = 427;
/** The house turned about its axis: distance from the axis against Y, along the wall, the arch and its flange. */
const HOUSE_PROFILE = [
  [75, WALL_Y_mm],
  [420, WALL_Y_mm],
  [420, 850],
  [500, 860],
] as const;

function bodyScan(triangles: number): ScanMesh {
  const lengths = HOUSE_PROFILE.slice(1).map((p, i) =>
    Math.hypot(p[0] - HOUSE_PROFILE[i]![0], p[1] - HOUSE_PROFILE[i]![1]),
  );
  const total = lengths.reduce((sum, each) => sum + each, 0);
  // what is cut away below takes about a fifth
  const rings = Math.round(Math.sqrt((triangles * 0.61 * total) / 2200));
  const segments = Math.round((triangles * 0.61) / rings);
  const random = randomOf(12);
  const waves = Array.from({ length: 8 }, (_, i) => ({
    k: [random() - 0.5, random() - 0.5, random() - 0.5].map((c) => (c * (6 + 3 * i)) / 100),
    phase: 7 * random(),
    height: 2.5 / (1 + i),
  }));
  const points: [number, number, number][] = [];
  for (let ring = 0; ring <= rings; ring++) {
    let along = (total * ring) / rings;
    let piece = 0;
    while (piece < lengths.length - 1 && along > lengths[piece]!) along -= lengths[piece++]!;
    const [from, to] = [HOUSE_PROFILE[piece]!, HOUSE_PROFILE[piece + 1]!];
    const s = Math.min(1, along / lengths[piece]!);
    const radius = from[0] + (to[0] - from[0]) * s;
    const y = from[1] + (to[1] - from[1]) * s;
    const out = [(to[1] - from[1]) / lengths[piece]!, (from[0] - to[0]) / lengths[piece]!] as const;
    for (let segment = 0; segment < segments; segment++) {
      const angle = (2 * Math.PI * segment) / segments;
      const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
      const [x, z] = [HOUSE_AXIS.x + radius * cos, HOUSE_AXIS.z + radius * sin];
      const height = waves.reduce(
        (sum, { k, phase, height }) => sum + height * Math.sin(k[0]! * x + k[1]! * y + k[2]! * z + phase),
        0,
      );
      points.push([x + height * out[0] * cos, y + height * out[1], z + height * out[0] * sin]);
    }
  }
  const list: number[] = [];
  for (let ring = 0; ring < rings; ring++) {
    for (let segment = 0; segment < segments; segment++) {
      const next = (segment + 1) % segments;
      const [a, b] = [ring * segments + segment, ring * segments + next];
      const [c, d] = [a + segments, b + segments];
      list.push(a, b, d, a, d, c);
    }
  }
  const holes = Array.from({ length: 12 }, () => ({
    at: points[Math.floor(random() * points.length)]!,
    radius: 10 + 20 * random(),
  }));
  return without({ points, triangles: list }, (p) => (p[1] > WALL_Y_mm + 20 && p[2] < 230) || isInHole(p, holes));
}

function isInHole(
  p: readonly [number, number, number],
  holes: readonly { at: readonly [number, number, number]; radius: number }[],
): boolean {
  return holes.some(({ at, radius }) => Math.hypot(p[0] - at[0], p[1] - at[1], p[2] - at[2]) < radius);
}

function without(
  { points, triangles }: ScanMesh,
  isMissing: (p: readonly [number, number, number]) => boolean,
): ScanMesh {
  const missing = points.map(isMissing);
  const kept: number[] = [];
  for (let i = 0; i < triangles.length; i += 3) {
    const corners = [triangles[i]!, triangles[i + 1]!, triangles[i + 2]!];
    if (!corners.some((corner) => missing[corner])) kept.push(...corners);
  }
  return { points, triangles: kept };
}

/** Binary STL: 80 bytes, a count, 50 bytes a triangle. */
function stlOf({ points, triangles }: ScanMesh): Uint8Array {
  const view = new DataView(new ArrayBuffer(84 + (50 * triangles.length) / 3));
  view.setUint32(80, triangles.length / 3, true);
  for (let i = 0; i < triangles.length; i++) {
    const at = 84 + 50 * Math.floor(i / 3) + 12 + 12 * (i % 3);
    for (let k = 0; k < 3; k++) view.setFloat32(at + 4 * k, points[triangles[i]!]![k]!, true);
  }
  return new Uint8Array(view.buffer);
}

function scanScene(parts: number, more: number): SceneDocument {
  const corner = readScene(readFileSync(CORNER, "utf8"), CORNER);
  const scans: BodyDocument[] = [
    { id: ENGINE_SCAN, on: "powertrain", shape: { kind: "mesh", file: "engine.stl", unit: "mm" } },
    { id: BODY_SCAN, on: "chassis", shape: { kind: "mesh", file: "body.stl", unit: "mm" } },
  ];
  for (let i = 0; i < more; i++) {
    const shape = {
      kind: "mesh" as const,
      file: `more-${i}.stl`,
      unit: "mm" as const,
      at: [900 * (i + 1), 0, 0] as [number, number, number],
    };
    scans.push({ id: `more-${i}`, on: "chassis", shape });
  }
  const [x, y, z] = [ENGINE_CENTRE[0], ENGINE_CENTRE[1], ENGINE_CENTRE[2] + ENGINE_HALF[2]];
  const intruder: BodyDocument = {
    id: INTRUDER,
    on: "chassis",
    shape: { kind: "box", size_mm: [60, 50, 60], at: [x, y, z + 30 - INTRUSION_mm], edge_mm: 4 },
  };
  const known = [...corner.bodies, intruder];
  const missing = parts - known.length - OWN_BODIES - MOVING_PARTS;
  return {
    ...corner,
    title: `Two scans beside ${parts} parts`,
    sides: "left",
    bodies: [...known, ...scans, ...movingParts(MOVING_PARTS), ...standingParts(missing)],
  };
}

/** Tyre, rim, three members, two halves of damper and of spring, bar, link and shaft. */
const OWN_BODIES = 12;
/** Clips, brackets and pipes that ride on the corner's moving parts. */
function movingParts(count: number): BodyDocument[] {
  const random = randomOf(21);
  const hosts = [
    { on: "carrier", at: [30, 630, 400] },
    { on: "upper", at: [30, 560, 450] },
    { on: "lower", at: [-30, 560, 215] },
    { on: "toe", at: [115, 560, 262] },
    { on: "damper-lower", at: [-99, 575, 300] },
  ] as const;
  return Array.from({ length: count }, (_, i): BodyDocument => {
    const { on, at } = hosts[i % hosts.length]!;
    const near = at.map((c) => c + 70 * (random() - 0.5)) as [number, number, number];
    return { id: `rider-${i}`, on, shape: smallShape(i, near, random) };
  });
}

/** What hangs on frame and engine, spread over both as in a car: few come near what moves. */
function standingParts(count: number): BodyDocument[] {
  const random = randomOf(22);
  const within = (low: number, high: number) => low + (high - low) * random();
  return Array.from({ length: count }, (_, i): BodyDocument => {
    const onEngine = i % 4 === 3;
    const at: [number, number, number] = onEngine
      ? [within(90, 420), within(-200, 240), within(625, 760)]
      : [within(-600, 900), within(-400, 390), within(60, 140)];
    return { id: `part-${i}`, on: onEngine ? "powertrain" : "chassis", shape: smallShape(i, at, random) };
  });
}

function smallShape(i: number, at: readonly [number, number, number], random: () => number): ShapeDocument {
  const size = 8 + 14 * random();
  const [x, y, z] = at;
  const far = at.map((c) => c + 50 * (random() - 0.5)) as [number, number, number];
  switch (i % 5) {
    case 0:
      return { kind: "box", size_mm: [size, 1.5 * size, 2 * size], at: [...at], edge_mm: 1 };
    case 1:
      return { kind: "cylinder", from: [...at], to: far, diameter_mm: size };
    case 2:
      return { kind: "tube", path: [[...at], [x + 40, y, z], [x + 50, y + 45, z + size]], diameter_mm: 8, bend_mm: 10 };
    case 3:
      return { kind: "torus", at: [...at], diameter_mm: 2 * size, section_mm: size / 2 };
    default:
      return { kind: "capsule", from: [...at], to: far, diameter_mm: size };
  }
}
