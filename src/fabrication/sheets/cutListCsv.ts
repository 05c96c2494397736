import Papa from "papaparse";
import { sizeText } from "./barText.ts";
import type { CutList } from "./cutList.ts";
import { rounded } from "./hardPoints.ts";

const FIELDS = [
  "kind",
  "part",
  "of",
  "count",
  "size",
  "material",
  "eye_to_eye_mm",
  "cut_mm",
  "saw_off_mm",
  "mitre_mm",
  "end_a",
  "end_a_at",
  "end_a_short_mm",
  "end_a_angle_deg",
  "end_a_thread",
  "end_a_engaged_mm",
  "end_b",
  "end_b_at",
  "end_b_short_mm",
  "end_b_angle_deg",
  "end_b_thread",
  "end_b_engaged_mm",
  "longer_mm",
  "shorter_mm",
  "mass_kg",
] as const;

type Line = Partial<Record<(typeof FIELDS)[number], string | number>>;

/**
 * Pieces and counts as comma-separated values (RFC 4180), mm and kg: rows of the kind "cut" for tubes and sections, of the kind "count" for
 * what is bought or cut of plate. What is not told is empty.
 */
export function cutListCsv({ pieces, counts }: CutList): string {
  const rows: Line[] = [
    ...pieces.map((piece): Line => {
      const ends = piece.ends.flatMap((end, i) => {
        const name = i === 0 ? "end_a" : "end_b";
        return Object.entries({
          [name]: end.how,
          [`${name}_at`]: end.at,
          [`${name}_short_mm`]: end.how === "unknown" ? "" : rounded(end.longest_mm),
          [`${name}_angle_deg`]: end.angle_deg === null ? "" : rounded(end.angle_deg),
          [`${name}_thread`]: end.thread?.name ?? "",
          [`${name}_engaged_mm`]: end.thread ? rounded(end.thread.engaged_mm) : "",
        });
      });
      return {
        kind: "cut",
        part: piece.part,
        of: piece.what,
        count: piece.count,
        size: sizeText(piece.size, "mm"),
        material: piece.material ?? "",
        eye_to_eye_mm: told(piece.eyeToEye_mm),
        cut_mm: told(piece.cut_mm),
        saw_off_mm: told(piece.sawn_mm),
        mitre_mm: rounded(piece.mitre_mm),
        longer_mm: told(piece.adjust_mm?.longer ?? null),
        shorter_mm: told(piece.adjust_mm?.shorter ?? null),
        mass_kg: told(piece.mass_kg),
        ...Object.fromEntries(ends),
      };
    }),
    ...counts.map(({ what, size, count, at }): Line => ({ kind: "count", part: at.join(" "), of: what, count, size })),
  ];
  const data = rows.map((row) => FIELDS.map((field) => row[field] ?? ""));
  return `${Papa.unparse({ fields: [...FIELDS], data }, { newline: "\n", escapeFormulae: false })}\n`;
}

function told(value: number | null): number | "" {
  return value === null ? "" : rounded(value);
}
