import { formatLength, type LengthUnit } from "../../scene/length.ts";
import type { SheetFacts } from "../paper/frame.ts";
import { Sheet, type SheetSetting } from "../paper/sheet.ts";
import { sizeText } from "./barText.ts";
import type { CutList, CutPiece, CutSetting, EndCut } from "./cutList.ts";
import { CUT_ENGLISH, type CutListWords } from "./cutListWords.ts";

/** The cut list on paper, its long edge lying. */
export async function cutListSheet(
  list: CutList,
  cut: CutSetting,
  facts: SheetFacts,
  setting: SheetSetting,
  unit: LengthUnit,
  words: CutListWords = CUT_ENGLISH,
): Promise<Uint8Array> {
  const sheet = await Sheet.begin(facts, { ...setting, landscape: true });
  const size = (mm: number): string => formatLength(mm, unit);
  const withUnit = (mm: number): string => formatLength(mm, unit, { withUnit: true });
  if (list.faults.length > 0) {
    sheet.heading(words.missing);
    for (const fault of list.faults)
      sheet.text(`• ${words.fault[fault.code]("joint" in fault ? fault.joint : fault.part)}`);
  }
  sheet.heading(words.tubes);
  sheet.table({
    columns: [
      { title: words.number },
      { title: words.part },
      { title: words.count, align: "right" },
      { title: words.size },
      { title: words.eyeToEye, align: "right" },
      { title: words.cut, align: "right" },
      { title: words.saw, align: "right" },
      { title: words.mass, align: "right" },
      { title: words.ends },
    ],
    rows: list.pieces.map((piece) => ({
      cells: [
        String(piece.number),
        words.what[piece.what](piece.part),
        String(piece.count),
        [sizeText(piece.size, unit, words), piece.material].filter(Boolean).join("\n"),
        piece.eyeToEye_mm === null ? "" : size(piece.eyeToEye_mm),
        piece.cut_mm === null ? words.notTold : size(piece.cut_mm),
        piece.sawn_mm === null ? "" : size(piece.sawn_mm),
        piece.mass_kg === null ? "" : piece.mass_kg.toFixed(2),
        endsText(piece, withUnit, words),
      ],
    })),
  });
  const known = list.pieces.reduce((sum, { mass_kg, count }) => sum + (mass_kg ?? 0) * count, 0);
  if (known > 0) sheet.text(words.total(known.toFixed(1)));
  for (const note of words.notes(withUnit(cut.saw_mm), withUnit(cut.trim_mm))) sheet.text(note);
  if (list.stock.length > 0) {
    sheet.heading(words.stock, 20);
    sheet.table({
      columns: [
        { title: words.size },
        { title: words.material },
        { title: words.pieces, align: "right" },
        { title: words.together, align: "right" },
        ...(cut.stock_mm === null ? [] : [{ title: words.bars(withUnit(cut.stock_mm)), align: "right" as const }]),
      ],
      rows: list.stock.map((line) => ({
        cells: [
          sizeText(line.size, unit, words),
          line.material ?? "",
          String(line.pieces),
          size(line.long_mm),
          ...(cut.stock_mm === null ? [] : [words.barCount(line.bars.length, line.tooLong)]),
        ],
      })),
    });
  }
  sheet.heading(words.parts, 20);
  sheet.table({
    columns: [
      { title: words.part },
      { title: words.size },
      { title: words.count, align: "right" },
      { title: words.at },
    ],
    rows: list.counts.map(({ what, size: of, count, at }) => ({
      cells: [words.counted[what], of || words.sizeUnknown, String(count), at.map(words.place).join(", ")],
    })),
  });
  return sheet.finish();
}

function endsText(piece: CutPiece, length: (mm: number) => string, words: CutListWords): string {
  const { ends, adjust_mm, bends, mitre_mm } = piece;
  const lines = ends.map((end) => endText(end, length, words));
  return [
    ...(lines[0] === lines[1] ? [lines[0]!] : lines),
    ...(mitre_mm > 0.05 ? [words.mitre(length(mitre_mm))] : []),
    ...(adjust_mm ? [words.adjust(length(adjust_mm.longer), length(adjust_mm.shorter))] : []),
    ...(bends.length > 0
      ? [
          words.bends(
            bends.length,
            length(bends[0]!.radius_mm),
            bends.map(({ angle_deg }) => degrees(angle_deg)).join(", "),
          ),
        ]
      : []),
  ].join("\n");
}

function endText(
  { how, at, angle_deg, longest_mm, thread }: EndCut,
  length: (mm: number) => string,
  { end }: CutListWords,
): string {
  const angle = degrees(angle_deg ?? 90);
  switch (how) {
    case "rod end":
      return end.rodEnd(at, thread!.name, length(thread!.engaged_mm), length(thread!.reach_mm));
    case "sleeve":
      return end.sleeve(at, angle, length(longest_mm));
    case "coped":
      return end.coped(at, angle, length(longest_mm));
    case "mitred":
      return end.mitred(angle);
    case "unknown":
      return end.unknown(at);
    case "square":
      return at === "" ? end.square : end.squareShort(at, length(longest_mm));
  }
}

function degrees(angle_deg: number): string {
  return `${angle_deg.toFixed(1)}°`;
}
