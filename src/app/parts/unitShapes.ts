import type { ShapeDocument } from "../../scene/document.ts";

/** What the shelf shows of the units that a corner has once; the car itself draws them from their own sizes. */

const coils = Array.from({ length: 6 }, (_, i) => ({
  kind: "torus" as const,
  at: [0, 70 + 28 * i, 0] as const,
  diameter_mm: 80,
  section_mm: 11,
}));

export const UNIT_SHAPES: Readonly<Record<"wheel" | "damper" | "antiRollBar" | "driveshaft", ShapeDocument>> = {
  wheel: { kind: "wheel" },
  damper: {
    kind: "group",
    turn_deg: [62, 0, 12],
    parts: [
      { kind: "cylinder", from: [0, 0, 0], to: [0, 170, 0], diameter_mm: 50 },
      { kind: "cylinder", from: [0, 170, 0], to: [0, 300, 0], diameter_mm: 18 },
      { kind: "cylinder", from: [0, 44, 0], to: [0, 54, 0], diameter_mm: 96 },
      { kind: "cylinder", from: [0, 226, 0], to: [0, 236, 0], diameter_mm: 96 },
      { kind: "cylinder", from: [-18, -16, 0], to: [18, -16, 0], diameter_mm: 36 },
      { kind: "cylinder", from: [-18, 314, 0], to: [18, 314, 0], diameter_mm: 36 },
      ...coils,
    ],
  },
  antiRollBar: {
    kind: "group",
    parts: [
      {
        kind: "tube",
        path: [
          [160, 330, 0],
          [0, 300, 0],
          [0, -300, 0],
          [160, -330, 0],
        ],
        diameter_mm: 24,
        bend_mm: 50,
      },
      { kind: "cylinder", from: [160, 330, -120], to: [160, 330, 10], diameter_mm: 14 },
      { kind: "cylinder", from: [160, -330, -120], to: [160, -330, 10], diameter_mm: 14 },
      { kind: "cylinder", from: [0, 185, 0], to: [0, 215, 0], diameter_mm: 50 },
      { kind: "cylinder", from: [0, -215, 0], to: [0, -185, 0], diameter_mm: 50 },
    ],
  },
  driveshaft: {
    kind: "group",
    parts: [
      { kind: "cylinder", from: [0, 0, 0], to: [0, 460, 0], diameter_mm: 30 },
      { kind: "cylinder", from: [0, -46, 0], to: [0, 24, 0], diameter_mm: 96 },
      { kind: "cylinder", from: [0, 436, 0], to: [0, 500, 0], diameter_mm: 92 },
      { kind: "cone", from: [0, 24, 0], to: [0, 60, 0], fromDiameter_mm: 88, toDiameter_mm: 56 },
      { kind: "cone", from: [0, 60, 0], to: [0, 100, 0], fromDiameter_mm: 66, toDiameter_mm: 38 },
      { kind: "cone", from: [0, 400, 0], to: [0, 436, 0], fromDiameter_mm: 56, toDiameter_mm: 86 },
      { kind: "cone", from: [0, 360, 0], to: [0, 400, 0], fromDiameter_mm: 38, toDiameter_mm: 66 },
    ],
  },
};
