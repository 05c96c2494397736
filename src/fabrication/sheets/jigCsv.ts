import Papa from "papaparse";
import { rounded } from "./hardPoints.ts";
import type { JigSheetData } from "./jigSheetData.ts";

const FIELDS = [
  "what",
  "point",
  "side",
  "to_point",
  "to_side",
  "forward_mm",
  "out_mm",
  "height_mm",
  "under_bar_mm",
  "straight_mm",
  "on_table_mm",
  "within_mm",
] as const;

/** Heights and lengths as comma-separated values (RFC 4180), mm; `what` says which a row is, and what it does not hold is empty. */
export function jigCsv({ stations, across, diagonals, alongside }: JigSheetData): string {
  const rows: Partial<Record<(typeof FIELDS)[number], string | number>>[] = [
    ...stations.map(({ point, forward_mm, out_mm, height_mm, under_mm, tolerance_mm }) => ({
      what: "height",
      point,
      forward_mm: rounded(forward_mm),
      out_mm: rounded(out_mm),
      height_mm: rounded(height_mm),
      ...(under_mm === null ? {} : { under_bar_mm: rounded(under_mm) }),
      within_mm: rounded(tolerance_mm),
    })),
    ...Object.entries({ across, diagonal: diagonals, alongside }).flatMap(([what, lengths]) =>
      lengths.map(({ from, to, straight_mm, onTable_mm, within_mm }) => ({
        what,
        point: from.point,
        side: from.side,
        to_point: to.point,
        to_side: to.side,
        straight_mm: rounded(straight_mm),
        on_table_mm: rounded(onTable_mm),
        within_mm: rounded(within_mm),
      })),
    ),
  ];
  const data = rows.map((row) => FIELDS.map((field) => row[field] ?? ""));
  return `${Papa.unparse({ fields: [...FIELDS], data }, { newline: "\n", escapeFormulae: false })}\n`;
}
