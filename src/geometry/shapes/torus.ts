import type { ShapeBuilder } from "../context.ts";
import { shapeError } from "../context.ts";
import type { Frame } from "../frame.ts";
import { cloudOf, MeshBuilder } from "../meshBuilder.ts";
import { type ProfilePoint, profileOutside, profileRing } from "../revolve.ts";
import { cornerRadius, sidesForSag } from "../roundness.ts";

/** z along the car's Y. */
const ABOUT_Y: Frame = { origin: [0, 0, 0], x: [0, 0, 1], y: [1, 0, 0], z: [0, 1, 0] };

/** Axis Y through its own origin; `diameter_mm` is that of the centre circle. */
export const torus: ShapeBuilder<"torus"> = (shape, context) => {
  const centre_mm = shape.diameter_mm / 2;
  const section_mm = shape.section_mm / 2;
  const sectionSides = sidesForSag(section_mm, context.tessellation_mm / 2);
  const corner_mm = cornerRadius(section_mm, sectionSides);
  if (corner_mm >= centre_mm) {
    throw shapeError(
      context,
      "section_mm",
      "the section reaches across the axis",
      "a section smaller than the diameter",
    );
  }
  const steps = sidesForSag(centre_mm + corner_mm, context.tessellation_mm / 2);
  // two flats square to the axis, so that the faces that turn away meet those that turn inward along a flat
  const circle = Array.from({ length: sectionSides }, (_, i): ProfilePoint => {
    const angle = (2 * Math.PI * (i + 0.5)) / sectionSides + Math.PI / 2;
    return [centre_mm + corner_mm * Math.cos(angle), corner_mm * Math.sin(angle)];
  });
  const profile = profileOutside(circle, Math.PI / steps);
  const rings = Array.from({ length: steps }, (_, i) => profileRing(ABOUT_Y, profile, (2 * Math.PI * i) / steps));
  const mesh = new MeshBuilder();
  const vertices = rings.map((ring) => mesh.ring(ring).reverse());
  for (const [i, ring] of vertices.entries()) mesh.band(ring, vertices[(i + 1) % steps]!);
  return mesh.solid(rings.map((ring, i) => cloudOf(ring, rings[(i + 1) % steps]!)));
};
