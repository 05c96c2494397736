import { buildSolid } from "../../geometry/buildSolid.ts";
import type { Solid } from "../../geometry/solid.ts";
import { cross, normalise, type Vec3 } from "../../maths/vec3.ts";
import type { Shape, Wheel } from "../../scene/scene.ts";

/** A small drawing of one part, made on the page itself: shaded faces and inked edges, seen from behind, above and outside. */

/** Coarse: nobody measures in a picture. */
const TESSELLATION_MM = 0.6;
const MARGIN = 0.09;
/** Towards the eye. */
const VIEW = normalise([-0.62, 0.66, 0.46]);
const RIGHT = normalise(cross([0, 0, 1], VIEW));
const UP = cross(VIEW, RIGHT);
const LIGHT = normalise([-0.35, 0.35, 0.87]);
/** Cosine between neighbours' normals below which an edge is inked. */
const CREASE = 0.8;

export interface Inks {
  readonly light: readonly [number, number, number];
  readonly dark: readonly [number, number, number];
  readonly ink: readonly [number, number, number];
}

/** Throws InputError where the shape cannot be built. */
export function solidOf(shape: Shape, wheel: Wheel): Solid {
  return buildSolid(shape, { tessellation_mm: TESSELLATION_MM, wheel, meshFiles: new Map() });
}

/** RGBA of a picture of that size, transparent where there is nothing. */
export function drawSolid(solid: Solid, width: number, height: number, inks: Inks): Uint8ClampedArray<ArrayBuffer> {
  const screen = projected(solid, width, height);
  const depth = new Float32Array(width * height).fill(-Infinity);
  const face = new Int32Array(width * height).fill(-1);
  const normals = new Float32Array(solid.indices.length);
  for (let t = 0; t < solid.indices.length / 3; t++)
    fillTriangle(solid, t, screen, depth, face, normals, width, height);
  return shaded(depth, face, normals, width, height, inks);
}

/** x, y in px and depth towards the eye in px, of every vertex; the part fills the picture. */
function projected({ positions }: Solid, width: number, height: number): Float32Array {
  const screen = new Float32Array(positions.length);
  const low = [Infinity, Infinity];
  const high = [-Infinity, -Infinity];
  for (let i = 0; i < positions.length; i += 3) {
    const p: Vec3 = [positions[i]!, positions[i + 1]!, positions[i + 2]!];
    for (const [j, axis] of [RIGHT, UP, VIEW].entries()) {
      const value = p[0] * axis[0] + p[1] * axis[1] + p[2] * axis[2];
      screen[i + j] = value;
      if (j === 2) continue;
      low[j] = Math.min(low[j]!, value);
      high[j] = Math.max(high[j]!, value);
    }
  }
  const room = 1 - 2 * MARGIN;
  const scale = Math.min((room * width) / (high[0]! - low[0]!), (room * height) / (high[1]! - low[1]!));
  const [cx, cy] = [(low[0]! + high[0]!) / 2, (low[1]! + high[1]!) / 2];
  for (let i = 0; i < screen.length; i += 3) {
    screen[i] = width / 2 + (screen[i]! - cx) * scale;
    screen[i + 1] = height / 2 - (screen[i + 1]! - cy) * scale;
    screen[i + 2]! *= scale;
  }
  return screen;
}

function fillTriangle(
  { positions: p, indices }: Solid,
  t: number,
  screen: Float32Array,
  depth: Float32Array,
  face: Int32Array,
  normals: Float32Array,
  width: number,
  height: number,
): void {
  const [a, b, c] = [3 * indices[3 * t]!, 3 * indices[3 * t + 1]!, 3 * indices[3 * t + 2]!];
  const [ax, ay] = [screen[a]!, screen[a + 1]!];
  const [bx, by] = [screen[b]!, screen[b + 1]!];
  const [cx, cy] = [screen[c]!, screen[c + 1]!];
  // y runs down the picture, so what faces the eye runs clockwise in it
  const twice = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
  if (twice >= 0) return;
  const normal = normalise(
    cross(
      [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!],
      [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!],
    ),
  );
  normals.set(normal, 3 * t);
  const left = Math.max(0, Math.floor(Math.min(ax, bx, cx)));
  const right = Math.min(width - 1, Math.ceil(Math.max(ax, bx, cx)));
  const top = Math.max(0, Math.floor(Math.min(ay, by, cy)));
  const bottom = Math.min(height - 1, Math.ceil(Math.max(ay, by, cy)));
  for (let y = top; y <= bottom; y++) {
    for (let x = left; x <= right; x++) {
      const [px, py] = [x + 0.5, y + 0.5];
      const u = ((bx - px) * (cy - py) - (by - py) * (cx - px)) / twice;
      const v = ((cx - px) * (ay - py) - (cy - py) * (ax - px)) / twice;
      const w = 1 - u - v;
      if (u < 0 || v < 0 || w < 0) continue;
      const z = u * screen[a + 2]! + v * screen[b + 2]! + w * screen[c + 2]!;
      const at = y * width + x;
      if (z <= depth[at]!) continue;
      depth[at] = z;
      face[at] = t;
    }
  }
}

function shaded(
  depth: Float32Array,
  face: Int32Array,
  normals: Float32Array,
  width: number,
  height: number,
  { light, dark, ink }: Inks,
): Uint8ClampedArray<ArrayBuffer> {
  const pixels = new Uint8ClampedArray(4 * width * height);
  const isEdge = (one: number, other: number): boolean => {
    const [f, g] = [face[one]!, face[other]!];
    if (f === g) return false;
    if (f < 0 || g < 0) return true;
    const facing = Math.abs(dotAt(normals, f, VIEW));
    // a step in depth that the slope of the nearer face does not explain
    if (Math.abs(depth[one]! - depth[other]!) > 3 + 2 / Math.max(facing, 0.1)) return true;
    const [i, j] = [3 * f, 3 * g];
    return normals[i]! * normals[j]! + normals[i + 1]! * normals[j + 1]! + normals[i + 2]! * normals[j + 2]! < CREASE;
  };
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const at = y * width + x;
      const inked = (x + 1 < width && isEdge(at, at + 1)) || (y + 1 < height && isEdge(at, at + width));
      const f = face[at]!;
      if (f < 0 && !inked) continue;
      const bright = f < 0 ? 0 : 0.5 + 0.5 * dotAt(normals, f, LIGHT);
      for (const k of [0, 1, 2] as const) {
        pixels[4 * at + k] = inked ? ink[k] : dark[k] + (light[k] - dark[k]) * bright;
      }
      pixels[4 * at + 3] = 255;
    }
  }
  return pixels;
}

function dotAt(normals: Float32Array, triangle: number, d: Vec3): number {
  const i = 3 * triangle;
  return normals[i]! * d[0] + normals[i + 1]! * d[1] + normals[i + 2]! * d[2];
}
