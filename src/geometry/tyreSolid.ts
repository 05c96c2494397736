import type { Wheel } from "../scene/scene.ts";
import { cloudOf, MeshBuilder } from "./meshBuilder.ts";
import { type ProfilePoint, profileOutside, profileRing } from "./revolve.ts";
import { sidesForSag } from "./roundness.ts";
import type { Solid } from "./solid.ts";
import { type TyreSize, tyreSize } from "./tyreSize.ts";
import { wheelFrame } from "./wheelFrame.ts";

/*
 * Proportions of the section, as passenger tyres look (common practice, no source): the flat of the tread, how far down
 * the shoulder is round, where the sidewall starts to draw in, how far round its lower curve runs before it meets the
 * bead. Rather square than round: a shoulder drawn too round would promise room that is not there.
 */
const TREAD_FLAT_PER_WIDTH = 0.74;
const SHOULDER_PER_HEIGHT = 0.34;
const WIDEST_PER_HEIGHT = 0.5;
const LOWER_CURVE_SINE = 0.9;
/**
 * The curves are made of so many flats, touching them from outside (0.3 mm at most on a car's tyre): no tyre is known
 * that closely, and fewer corners make every check faster.
 */
const SHOULDER_FLATS = 8;
const LOWER_FLATS = 6;
/** The beads of a narrow tyre stretched over a wide rim still stand inside the section width. */
const WIDEST_BEAD_PER_WIDTH = 0.96;

/**
 * The tyre of the left wheel at ride height: section width by overall diameter with rounded shoulders, filled down to
 * the bead seats, with what it grows at speed and bulges under load all round. A convex section turned about the spin axis: every step is a convex piece.
 */
export function buildTyre(wheel: Wheel, tessellation_mm: number): Solid {
  const size = tyreSize(wheel.tyre, wheel.rimWidth_in);
  const steps = sidesForSag(size.overallDiameter_mm / 2 + (wheel.growth_mm ?? 0), tessellation_mm);
  const section = grownSection(tyreSection(size), wheel);
  const profile = profileOutside(section, Math.PI / steps);
  const frame = wheelFrame(wheel);
  const rings = Array.from({ length: steps }, (_, i) => profileRing(frame, profile, (2 * Math.PI * i) / steps));
  const mesh = new MeshBuilder();
  const vertices = rings.map((ring) => mesh.ring(ring).reverse());
  for (const [i, ring] of vertices.entries()) mesh.band(ring, vertices[(i + 1) % steps]!);
  return mesh.solid(rings.map((ring, i) => cloudOf(ring, rings[(i + 1) % steps]!)));
}

/**
 * The closed section, counter-clockwise in (radius from the spin axis, height outboard of the centre plane). Shoulder and
 * lower sidewall follow ellipses that touch the tread's flat and the straight part of the sidewall, which stands at the
 * section width.
 */
export function tyreSection(size: TyreSize): ProfilePoint[] {
  const outer = size.overallDiameter_mm / 2;
  const bead = size.rimDiameter_mm / 2;
  const halfWidth = size.sectionWidth_mm / 2;
  const halfBead = Math.min(size.rimWidth_mm, size.sectionWidth_mm * WIDEST_BEAD_PER_WIDTH) / 2;
  const treadFlat = halfWidth * TREAD_FLAT_PER_WIDTH;
  const height = outer - bead;
  const shoulderDrop = SHOULDER_PER_HEIGHT * height;
  const lowerDrop = (WIDEST_PER_HEIGHT * height) / LOWER_CURVE_SINE;
  const lowerDraw = (halfWidth - halfBead) / (1 - Math.sqrt(1 - LOWER_CURVE_SINE ** 2));
  const outboard: ProfilePoint[] = [
    ...ellipseTangents(
      [outer - shoulderDrop, treadFlat],
      [shoulderDrop, halfWidth - treadFlat],
      [0, Math.PI / 2],
      SHOULDER_FLATS,
    ),
    ...ellipseTangents(
      [bead + WIDEST_PER_HEIGHT * height, halfWidth - lowerDraw],
      [lowerDrop, lowerDraw],
      [Math.PI / 2, Math.PI / 2 + Math.asin(LOWER_CURVE_SINE)],
      LOWER_FLATS,
    ),
    [bead, halfBead],
  ];
  const inboard = outboard.map(([radial, axial]): ProfilePoint => [radial, -axial]).reverse();
  return [...inboard, ...outboard];
}

/**
 * The section with its tread out by the growth and each sidewall by the bulge: the convex hull of the section as it is and of its halves
 * moved so, which holds every growth and bulge up to these two. Counter-clockwise from the inboard bead like the section.
 */
function grownSection(
  section: readonly ProfilePoint[],
  { growth_mm = 0, bulge_mm = 0 }: Pick<Wheel, "growth_mm" | "bulge_mm">,
): readonly ProfilePoint[] {
  if (growth_mm === 0 && bulge_mm === 0) return section;
  const bead = Math.min(...section.map(([radial]) => radial));
  const moved = section
    .filter(([radial]) => radial > bead)
    .map(([radial, axial]): ProfilePoint => [radial + growth_mm, axial + Math.sign(axial) * bulge_mm]);
  // of what stands between, the sidewall bulged but not grown
  const bulged = section
    .filter(([radial]) => radial > bead)
    .map(([radial, axial]): ProfilePoint => [radial, axial + Math.sign(axial) * bulge_mm]);
  return convexHull([...section, ...moved, ...bulged]);
}

/** Counter-clockwise from the leftmost, lowest point (monotone chain, Andrew 1979). */
function convexHull(points: readonly ProfilePoint[]): ProfilePoint[] {
  const sorted = [...points].sort((p, q) => p[0] - q[0] || p[1] - q[1]);
  const chain = (along: readonly ProfilePoint[]): ProfilePoint[] => {
    const kept: ProfilePoint[] = [];
    for (const [x, y] of along) {
      for (;;) {
        const [p, q] = kept.slice(-2);
        if (!p || !q || (q[0] - p[0]) * (y - p[1]) - (q[1] - p[1]) * (x - p[0]) > 1e-9) break;
        kept.pop();
      }
      kept.push([x, y]);
    }
    return kept.slice(0, -1);
  };
  return [...chain(sorted), ...chain(sorted.toReversed())];
}

/**
 * Corners between the tangents of the ellipse centre + (a·cos t, b·sin t) at equal steps of t, the tangents at both ends
 * included. Seen as a stretched circle they lie 1/cos(step/2) out.
 */
function ellipseTangents(
  centre: ProfilePoint,
  [a, b]: ProfilePoint,
  [from, to]: readonly [number, number],
  count: number,
): ProfilePoint[] {
  const half = (to - from) / count / 2;
  return Array.from({ length: count }, (_, i): ProfilePoint => {
    const t = from + half * (2 * i + 1);
    return [centre[0] + (a * Math.cos(t)) / Math.cos(half), centre[1] + (b * Math.sin(t)) / Math.cos(half)];
  });
}
