import type { Wheel } from "../scene/scene.ts";
import { convexPolygons } from "./convexPolygons.ts";
import { cloudOf, MeshBuilder } from "./meshBuilder.ts";
import { type Point2, triangulateOutline } from "./outline.ts";
import { type ProfilePoint, profileOutside, profileRing } from "./revolve.ts";
import { rimProfile } from "./rimProfile.ts";
import { sidesForSag } from "./roundness.ts";
import type { Solid } from "./solid.ts";
import { tyreSize } from "./tyreSize.ts";
import { wheelFrame } from "./wheelFrame.ts";

const SPOKES = 5;
/** Of five steps from spoke to spoke, three are open. */
const STEPS_PER_SPOKE = 5;
const OPEN_STEPS = 3;

/**
 * The rim of the left wheel at ride height: barrel with flanges and drop centre, a disc with five windows, a hub bore.
 * The disc's inboard face at the hub lies rimOffset_mm outboard of the wheel's centre plane.
 */
export function buildRim(wheel: Wheel, tessellation_mm: number): Solid {
  const { points, windowOuterFront, windowInnerFront, windowInnerBack, windowOuterBack } = rimProfile(
    tyreSize(wheel.tyre, wheel.rimWidth_in),
    wheel.rimOffset_mm,
  );
  const farthest = Math.max(...points.map(([radial]) => radial));
  const stepsApart = SPOKES * STEPS_PER_SPOKE;
  const steps = Math.ceil(sidesForSag(farthest, tessellation_mm) / stepsApart) * stepsApart;
  const halfStep = Math.PI / steps;
  // the windows' inner edges face away from the axis; they lie on flats, along which they may move
  const profile = profileOutside(points, halfStep).map(
    (point, i): ProfilePoint =>
      i === windowInnerFront || i === windowInnerBack ? [point[0] / Math.cos(halfStep), point[1]] : point,
  );
  const isOpen = (step: number) =>
    Math.floor((((step + steps) % steps) * stepsApart) / steps) % STEPS_PER_SPOKE < OPEN_STEPS;

  const frame = wheelFrame(wheel);
  const rings = Array.from({ length: steps }, (_, i) => profileRing(frame, profile, (2 * Math.PI * i) / steps));
  const mesh = new MeshBuilder();
  const vertices = rings.map((ring) => mesh.ring(ring));
  const n = profile.length;
  for (let step = 0; step < steps; step++) {
    const [here, there] = [vertices[step]!, vertices[(step + 1) % steps]!];
    const side = (from: number, to: number) => mesh.quad(here[from]!, there[from]!, there[to]!, here[to]!);
    const open = isOpen(step);
    for (let i = 0; i < n; i++) {
      if (!open || (i !== windowOuterFront && i !== windowInnerBack)) side(i, (i + 1) % n);
    }
    if (open) {
      side(windowInnerBack, windowInnerFront);
      side(windowOuterFront, windowOuterBack);
    }
    if (open === isOpen(step - 1)) continue;
    const [a, b, c, d] = [windowOuterFront, windowInnerFront, windowInnerBack, windowOuterBack].map((i) => here[i]!);
    if (open) mesh.quad(d!, c!, b!, a!);
    else mesh.quad(a!, b!, c!, d!);
  }

  const range = (from: number, to: number) =>
    Array.from({ length: ((to - from + n) % n) + 1 }, (_, i) => (from + i) % n);
  const always = [range(windowInnerFront, windowInnerBack), range(windowOuterBack, windowOuterFront)].flatMap((part) =>
    convexParts(profile, part),
  );
  const spoke = [windowOuterFront, windowInnerFront, windowInnerBack, windowOuterBack];
  const pieces = rings.flatMap((ring, step) => {
    const next = rings[(step + 1) % steps]!;
    const parts = isOpen(step) ? always : [...always, spoke];
    return parts.map((part) =>
      cloudOf(
        part.map((i) => ring[i]!),
        part.map((i) => next[i]!),
      ),
    );
  });
  return mesh.solid(pieces);
}

/** Convex polygons that fill the part of the profile bordered by these of its points, as indices into the profile. */
function convexParts(profile: readonly ProfilePoint[], border: readonly number[]): number[][] {
  const corners: Point2[] = border.map((i) => profile[i]!);
  const triangles = triangulateOutline(corners, []);
  if (!triangles) throw new Error("a rim's profile crosses itself");
  return convexPolygons(triangles, corners).map((polygon) => polygon.map((i) => border[i]!));
}
