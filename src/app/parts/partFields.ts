import type { PointDocument, SceneDocument } from "../../scene/document.ts";
import { type Part, partOf } from "../../scene/parts/parts.ts";
import { angleOf, directionOf, lengthOf, pointAt, type RecipeField } from "../../scene/recipes/fields.ts";
import { recipeOf } from "../../scene/recipes/made.ts";

/** A field of a sheet: as recipes have them, and what only the units' records have. */
export type SheetField = (
  | RecipeField
  | { readonly kind: "text"; readonly label: string }
  | { readonly kind: "number"; readonly label: string; readonly unit: string }
  | { readonly kind: "mount"; readonly label: string }
) & { readonly optional?: boolean };

export type SheetFields = Readonly<Record<string, SheetField>>;
export type SheetValues = Readonly<Record<string, unknown>>;

const NOWHERE = [0, 0, 0] as const;

function optional(field: SheetField): SheetField {
  return { ...field, optional: true };
}

export const UNIT_FIELDS: Readonly<Record<"wheel" | "damper" | "antiRollBar" | "driveshaft", SheetFields>> = {
  wheel: {
    centre: pointAt("Wheel centre", NOWHERE),
    tyre: { kind: "text", label: "Tyre size" },
    rimWidth_in: { kind: "number", label: "Rim width", unit: "inches" },
    rimOffset_mm: lengthOf("Rim offset", 40),
    toe_deg: angleOf("Toe, in positive", 0, [-30, 30]),
    camber_deg: angleOf("Camber, top out positive", 0, [-30, 30]),
  },
  damper: {
    top: pointAt("Top", NOWHERE),
    bottom: pointAt("Bottom", NOWHERE),
    on: { kind: "mount", label: "Bottom is held by" },
    closed_mm: lengthOf("Length closed", 300),
    open_mm: lengthOf("Length open", 440),
    body_mm: lengthOf("Body diameter", 50),
    spring_mm: optional(lengthOf("Spring diameter", 90)),
    springRate_N_per_mm: optional({ kind: "number", label: "Spring rate", unit: "N/mm" }),
    stopTouches_mm: optional(lengthOf("Bump stop touches at", 325)),
    stopSolid_mm: optional(lengthOf("Bump stop solid at", 310)),
  },
  antiRollBar: {
    pivot: pointAt("Pivot", NOWHERE),
    axis: directionOf("Bar runs along", [0, 1, 0]),
    arm: pointAt("Arm end", NOWHERE),
    pickup: pointAt("Drop link's other end", NOWHERE),
    on: { kind: "mount", label: "Drop link is held by" },
    diameter_mm: lengthOf("Bar diameter", 20),
  },
  driveshaft: {
    inner: pointAt("Inner joint", NOWHERE),
    innerAxis: directionOf("Inner joint's axis", [0, 1, 0]),
    outer: pointAt("Outer joint", NOWHERE),
    diameter_mm: lengthOf("Shaft diameter", 28),
    shortest_mm: optional(lengthOf("Shortest, joint to joint", 420)),
    longest_mm: optional(lengthOf("Longest, joint to joint", 450)),
    innerAngleLimit_deg: optional(angleOf("Inner joint bends up to", 23, [0, 90])),
    outerAngleLimit_deg: optional(angleOf("Outer joint bends up to", 45, [0, 90])),
  },
};

export function fieldsOf(part: Part): SheetFields | null {
  if (part.made) return recipeOf(part.made).fields;
  return part.kind === "body" || part.kind === "member" ? null : UNIT_FIELDS[part.kind];
}

/** The values that the sheet shows: the recipe's, or the unit's record. */
export function valuesOf(document: SceneDocument, id: string): SheetValues | null {
  const part = partOf(document, id);
  if (part.made) return part.made;
  return part.kind === "body" || part.kind === "member" ? null : (document[part.kind] ?? null);
}

/** What a POINT is called in a list: a name, a name with a step from it, a place. */
export function pointWords(point: PointDocument): string {
  if (typeof point === "string") return point;
  const numbers = (list: readonly number[]) => list.map((value) => Math.round(value * 10) / 10).join(", ");
  return "from" in point ? `${point.from}, off by ${numbers(point.by)}` : `at ${numbers(point)}`;
}
