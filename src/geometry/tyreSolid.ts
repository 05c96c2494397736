import type { Wheel } from "../scene/scene.ts";
import { cloudOf, MeshBuilder } from "./meshBuilder.ts";
import { type ProfilePoint, profileOutside, profileRing } from "./revolve.ts";
import { sidesForSag } from "./roundness.ts";
import type { Solid } from "./solid.ts";
import { type TyreSize, tyreSize } from "./tyreSize.ts";
import { wheelFrame } from "./wheelFrame.ts";

/*
 * Proportions of the section, as passenger tyres look (common practice, no source): the flat of the tread, where the
 * sidewall is widest, and how far round its lower curve runs before it meets the bead.
 */
const TREAD_FLAT_PER_WIDTH = 0.72;
const WIDEST_PER_HEIGHT = 0.52;
const LOWER_CURVE_SINE = 0.9;
/** The beads of a narrow tyre stretched over a wide rim still stand inside the section width. */
const WIDEST_BEAD_PER_WIDTH = 0.96;

/**
 * The tyre of the left wheel at ride height: section width by overall diameter with rounded shoulders, filled down to
 * the bead seats. A convex section turned about the spin axis: every step is a convex piece.
 */
export function buildTyre(wheel: Wheel, tessellation_mm: number): Solid {
  const size = tyreSize(wheel.tyre, wheel.rimWidth_in);
  const section = tyreSection(size, tessellation_mm / 2);
  const steps = sidesForSag(size.overallDiameter_mm / 2, tessellation_mm / 2);
  const profile = profileOutside(section, Math.PI / steps);
  const frame = wheelFrame(wheel);
  const rings = Array.from({ length: steps }, (_, i) => profileRing(frame, profile, (2 * Math.PI * i) / steps));
  const mesh = new MeshBuilder();
  const vertices = rings.map((ring) => mesh.ring(ring).reverse());
  for (const [i, ring] of vertices.entries()) mesh.band(ring, vertices[(i + 1) % steps]!);
  return mesh.solid(rings.map((ring, i) => cloudOf(ring, rings[(i + 1) % steps]!)));
}

/** Lengths that draw the section; half widths from the wheel's centre plane, radii from the spin axis, mm. */
export interface TyreSection {
  readonly treadFlat: number;
  readonly halfWidth: number;
  readonly halfBead: number;
  readonly outerRadius: number;
  readonly widestRadius: number;
  readonly beadRadius: number;
}

export function tyreSectionLengths(size: TyreSize): TyreSection {
  const outerRadius = size.overallDiameter_mm / 2;
  const beadRadius = size.rimDiameter_mm / 2;
  return {
    treadFlat: (size.sectionWidth_mm * TREAD_FLAT_PER_WIDTH) / 2,
    halfWidth: size.sectionWidth_mm / 2,
    halfBead: Math.min(size.rimWidth_mm, size.sectionWidth_mm * WIDEST_BEAD_PER_WIDTH) / 2,
    outerRadius,
    widestRadius: beadRadius + WIDEST_PER_HEIGHT * (outerRadius - beadRadius),
    beadRadius,
  };
}

/** Shoulder and lower sidewall are arcs of ellipses that touch the tread, the section width and each other. */
function tyreSection(size: TyreSize, sag_mm: number): ProfilePoint[] {
  const { treadFlat, halfWidth, halfBead, outerRadius, widestRadius, beadRadius } = tyreSectionLengths(size);
  const shoulder = ellipseOutside(
    [widestRadius, treadFlat],
    outerRadius - widestRadius,
    halfWidth - treadFlat,
    [0, Math.PI / 2],
    sag_mm,
  );
  const drop = (halfWidth - halfBead) / (1 - Math.sqrt(1 - LOWER_CURVE_SINE ** 2));
  const lower = ellipseOutside(
    [widestRadius, halfWidth - drop],
    (widestRadius - beadRadius) / LOWER_CURVE_SINE,
    drop,
    [Math.PI / 2, Math.PI / 2 + Math.asin(LOWER_CURVE_SINE)],
    sag_mm,
  );
  const outboard: ProfilePoint[] = [...shoulder, ...lower, [beadRadius, halfBead]];
  const inboard = outboard.map(([radial, axial]): ProfilePoint => [radial, -axial]).reverse();
  return [...inboard, ...outboard];
}

/**
 * Corners between tangents of the ellipse centre + (a·cos t, b·sin t) at equal steps of t, at most `sag_mm` outside it.
 * Seen as a stretched circle they lie 1/cos(step/2) out.
 */
function ellipseOutside(
  centre: ProfilePoint,
  a: number,
  b: number,
  [from, to]: readonly [number, number],
  sag_mm: number,
): ProfilePoint[] {
  const larger = Math.max(a, b);
  const count = Math.max(1, Math.ceil((to - from) / (2 * Math.acos(larger / (larger + sag_mm)))));
  const half = (to - from) / count / 2;
  return Array.from({ length: count }, (_, i): ProfilePoint => {
    const t = from + half * (2 * i + 1);
    return [centre[0] + (a * Math.cos(t)) / Math.cos(half), centre[1] + (b * Math.sin(t)) / Math.cos(half)];
  });
}
