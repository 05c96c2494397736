import type { FlatPart } from "./flatPart.ts";
import { type PlateWarning, plateWarnings } from "./rules.ts";
import { looksTo, mm, type Note, plain, type TemplateWords, TIMES } from "./words.ts";
import type { WrapPart } from "./wrap.ts";

/** Everything that goes out with a plate, warnings last. */
export function plateNotes(part: FlatPart, words: TemplateWords): Note[] {
  const { id, count, sides, thickness_mm, stands, folds, holes, kFactor, differs } = part;
  const heading = sides === "both" ? words.plateEachSide : words.plate;
  const round = holes.filter((hole) => hole.kind === "circle");
  const coarse = round.find(({ diameter_mm, flats_mm }) => diameter_mm - flats_mm > COARSE_mm);
  const list = round.map(({ diameter_mm }, i) => words.hole({ which: String(i + 1), diameter: mm(diameter_mm) }));
  return [
    plain(heading({ id, count: String(count), thickness: mm(thickness_mm) })),
    ...(stands ? [plain(words.face[looksTo(stands.face, sides === "both")])] : []),
    ...(folds.length > 0 ? [plain(words.fromInside)] : []),
    ...(sides === "both" && folds.length > 0 ? [plain(words.rightAlike)] : []),
    ...(sides === "both" && stands ? [plain(words.turnOver)] : []),
    ...(list.length > 0 ? [plain(words.holes(list.join(", ")))] : []),
    ...(coarse ? [plain(words.coarse(mm(coarse.flats_mm)))] : []),
    ...folds.map(({ way, angle_deg, inside_mm, allowance_mm }, i) =>
      plain(
        words.fold[way]({
          which: String(i + 1),
          angle: mm(angle_deg),
          inside: mm(inside_mm),
          takes: mm(allowance_mm),
        }),
      ),
    ),
    ...(kFactor === null ? [] : [plain(words.kFactor(mm(kFactor)))]),
    ...differs.map(({ drawn_mm, folded_mm }) =>
      plain(words.baseDiffers({ drawn: mm(drawn_mm), folded: mm(folded_mm) })),
    ),
    ...plateWarningTexts(part, words).map((text) => ({ text: words.warning(text), isWarning: true })),
  ];
}

/** Corners of a hole so far outside its sides, mm, show that it is drawn roughly. */
const COARSE_mm = 0.25;

/** One sentence for all holes or folds that fall short of a rule alike. */
function plateWarningTexts(part: FlatPart, words: TemplateWords): string[] {
  const alike = new Map<string, { readonly first: PlateWarning; readonly which: number[] }>();
  for (const warning of plateWarnings(part)) {
    const key = [warning.rule, mm(warning.is_mm), mm(warning.least_mm)].join(" ");
    const group = alike.get(key);
    if (!group) alike.set(key, { first: warning, which: [warning.which] });
    // a hole may be too near to both of two bends
    else if (!group.which.includes(warning.which)) group.which.push(warning.which);
  }
  return [...alike.values()].map(({ first: { rule, is_mm, least_mm }, which }) =>
    words.rules[rule]({ which: which.join(", "), is: mm(is_mm), least: mm(least_mm), times: String(TIMES[rule]) }),
  );
}

/** What a person needs to know to use a wrap, warnings last. */
export function wrapNotes(wrap: WrapPart, words: TemplateWords): Note[] {
  const { diameter_mm, wall_mm, fittedTo, edge_mm, edgesApart_mm, lines, warnings, sides, side } = wrap;
  const name = wrapName(wrap, words);
  const diameter = mm(diameter_mm);
  return [
    plain(
      wall_mm === null ? words.wrap({ name, diameter }) : words.wrapWithWall({ name, diameter, wall: mm(wall_mm) }),
    ),
    ...(side === null && sides === "both" ? [plain(words.servesBoth)] : []),
    ...fittedTo.map(({ of, angle_deg }) => plain(words.fitted({ part: of, angle: angle_deg.toFixed(1) }))),
    plain(words.howToWrap[lines[0]]),
    plain(words.edge(mm(-edge_mm))),
    ...(edgesApart_mm === null ? [] : [plain(words.edgesApart(mm(edgesApart_mm)))]),
    plain(wall_mm === null ? words.wallNotTold : words.wholeWall),
    ...warnings.map((warning) => ({ text: words.warning(words.wrapWarnings[warning]), isWarning: true })),
  ];
}

export function wrapName({ tube, which, side }: WrapPart, words: TemplateWords): string {
  const name = words.wrapName[which](tube);
  return side === null ? name : words.wrapSide[side](name);
}
