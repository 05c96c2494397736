import type { PointDocument, SceneDocument } from "../../scene/document.ts";
import { type Part, partOf } from "../../scene/parts/parts.ts";
import { angleOf, directionOf, lengthOf, pointAt, type RecipeField } from "../../scene/recipes/fields.ts";
import { recipeOf } from "../../scene/recipes/made.ts";
import { t } from "../text/text.ts";
import { shownFields } from "./recipeText.ts";

/** A field of a sheet: as recipes have them, and what only the units' records have. */
export type SheetField = (
  | RecipeField
  | { readonly kind: "text"; readonly label: string }
  | { readonly kind: "number"; readonly label: string; readonly unit: string; readonly usual?: number }
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
    centre: pointAt(t("parts.unitFields.wheel.centre"), NOWHERE),
    tyre: { kind: "text", label: t("parts.unitFields.wheel.tyre") },
    rimWidth_in: { kind: "number", label: t("parts.unitFields.wheel.rimWidth_in"), unit: t("parts.fields.inches") },
    rimOffset_mm: lengthOf(t("parts.unitFields.wheel.rimOffset_mm"), 40),
    toe_deg: angleOf(t("parts.unitFields.wheel.toe_deg"), 0, [-30, 30]),
    camber_deg: angleOf(t("parts.unitFields.wheel.camber_deg"), 0, [-30, 30]),
  },
  damper: {
    top: pointAt(t("parts.unitFields.damper.top"), NOWHERE),
    bottom: pointAt(t("parts.unitFields.damper.bottom"), NOWHERE),
    on: { kind: "mount", label: t("parts.unitFields.damper.on") },
    closed_mm: lengthOf(t("parts.unitFields.damper.closed_mm"), 300),
    open_mm: lengthOf(t("parts.unitFields.damper.open_mm"), 440),
    body_mm: lengthOf(t("parts.unitFields.damper.body_mm"), 50),
    spring_mm: optional(lengthOf(t("parts.unitFields.damper.spring_mm"), 90)),
    springRate_N_per_mm: optional({ kind: "number", label: t("parts.unitFields.damper.springRate"), unit: "N/mm" }),
    springFree_mm: optional(lengthOf(t("parts.unitFields.damper.springFree_mm"), 300)),
    springSolid_mm: optional(lengthOf(t("parts.unitFields.damper.springSolid_mm"), 150)),
    springAtRide_mm: optional(lengthOf(t("parts.unitFields.damper.springAtRide_mm"), 220)),
    stopTouches_mm: optional(lengthOf(t("parts.unitFields.damper.stopTouches_mm"), 325)),
    stopSolid_mm: optional(lengthOf(t("parts.unitFields.damper.stopSolid_mm"), 310)),
    strapTight_mm: optional(lengthOf(t("parts.unitFields.damper.strapTight_mm"), 435)),
  },
  antiRollBar: {
    pivot: pointAt(t("parts.unitFields.antiRollBar.pivot"), NOWHERE),
    axis: directionOf(t("parts.unitFields.antiRollBar.axis"), [0, 1, 0]),
    arm: pointAt(t("parts.unitFields.antiRollBar.arm"), NOWHERE),
    pickup: pointAt(t("parts.unitFields.antiRollBar.pickup"), NOWHERE),
    on: { kind: "mount", label: t("parts.unitFields.antiRollBar.on") },
    diameter_mm: lengthOf(t("parts.unitFields.antiRollBar.diameter_mm"), 20),
  },
  driveshaft: {
    inner: pointAt(t("parts.unitFields.driveshaft.inner"), NOWHERE),
    innerAxis: directionOf(t("parts.unitFields.driveshaft.innerAxis"), [0, 1, 0]),
    outer: pointAt(t("parts.unitFields.driveshaft.outer"), NOWHERE),
    diameter_mm: lengthOf(t("parts.unitFields.driveshaft.diameter_mm"), 28),
    bar_mm: optional(lengthOf(t("parts.unitFields.driveshaft.bar_mm"), 400)),
    shortest_mm: optional(lengthOf(t("parts.unitFields.driveshaft.shortest_mm"), 420)),
    longest_mm: optional(lengthOf(t("parts.unitFields.driveshaft.longest_mm"), 450)),
    innerAngleLimit_deg: optional(angleOf(t("parts.unitFields.driveshaft.innerAngleLimit_deg"), 23, [0, 90])),
    outerAngleLimit_deg: optional(angleOf(t("parts.unitFields.driveshaft.outerAngleLimit_deg"), 45, [0, 90])),
  },
};

export function fieldsOf(part: Part): SheetFields | null {
  if (part.made) return shownFields(recipeOf(part.made));
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
  const numbers = (list: readonly number[]) =>
    list.map((value) => String(Math.round(value * 10) / 10).replace("-", "−")).join(", ");
  return "from" in point
    ? t("parts.fields.pointStep", { from: point.from, by: numbers(point.by) })
    : t("parts.fields.pointAt", { at: numbers(point) });
}
