import type { Faces } from "./fonts.ts";
import type { Pen } from "./pen.ts";
import { MARGIN_mm } from "./sizes.ts";
import type { FrameWords, Standing } from "./words.ts";

/** What every page of a sheet says around what it holds. */
export interface SheetFacts {
  /** What sheet it is: "Cut list". */
  readonly title: string;
  /** What car or corner it is of. */
  readonly subject: string;
  /** As it shall be read. */
  readonly date: string;
  readonly revision: string;
  /** "mm, degrees, kg" */
  readonly units: string;
  readonly standing: Standing;
  /** What lengths are measured from. */
  readonly datum: string;
  readonly cautions: readonly string[];
}

/** Where a page has room, mm from its upper left corner. */
export interface Body {
  readonly left_mm: number;
  readonly top_mm: number;
  readonly width_mm: number;
  readonly height_mm: number;
}

const TITLE_mm = 5.4;
const SUBJECT_mm = 3.6;
const LABEL_mm = 2.3;
const FACT_mm = 3;
const FACT_FEED_mm = 3.8;
const CAUTION_mm = 2.6;
const CAUTION_FEED_mm = 3.3;
const GAP_mm = 3;

/** The head and foot of the pages of one sheet, laid out once: they are the same on all of them but for the page's number. */
export interface Frame {
  readonly body: Body;
  draw(pen: Pen, page: number, pages: number): void;
}

export function layFrame(
  facts: SheetFacts,
  page_mm: { readonly width: number; readonly height: number },
  faces: Faces,
  words: FrameWords,
): Frame {
  const left = MARGIN_mm.left;
  const width = page_mm.width - left - MARGIN_mm.right;
  const title = faces.bold.wrap(facts.title, TITLE_mm, width - 34);
  const subject = faces.regular.wrap(facts.subject, SUBJECT_mm, width);
  const fields = layFields(facts, faces, words, width);
  const titleFoot = MARGIN_mm.top + title.length * TITLE_mm * 1.15;
  const subjectFoot = titleFoot + subject.length * SUBJECT_mm * 1.25 + 0.4;
  const fieldsTop = subjectFoot + 2;
  const top = fieldsTop + fields.height + GAP_mm;
  const cautions = facts.cautions.flatMap((caution) => faces.regular.wrap(caution, CAUTION_mm, width));
  const footTop = page_mm.height - MARGIN_mm.bottom - cautions.length * CAUTION_FEED_mm - 1;
  return {
    body: { left_mm: left, top_mm: top, width_mm: width, height_mm: footTop - GAP_mm - top },
    draw(pen, page, pages) {
      for (const [i, line] of title.entries())
        pen.text(line, [left, MARGIN_mm.top + (i + 0.8) * TITLE_mm * 1.15], { size_mm: TITLE_mm, bold: true });
      pen.text(words.page(page, pages), [left + width, MARGIN_mm.top + 0.8 * TITLE_mm * 1.15], {
        size_mm: FACT_mm,
        align: "right",
      });
      for (const [i, line] of subject.entries())
        pen.text(line, [left, titleFoot + (i + 0.9) * SUBJECT_mm * 1.25], { size_mm: SUBJECT_mm });
      fields.draw(pen.at([left, fieldsTop]));
      pen.line([left, footTop], [left + width, footTop], { width_mm: 0.2 });
      for (const [i, line] of cautions.entries())
        pen.text(line, [left, footTop + 1 + (i + 0.8) * CAUTION_FEED_mm], { size_mm: CAUTION_mm });
    },
  };
}

/** The facts side by side in boxes, each under its name; the datum, which is the longest, has what the others leave. */
function layFields(facts: SheetFacts, faces: Faces, words: FrameWords, width: number) {
  const pad = 1.2;
  const fields = [
    { name: words.date, text: facts.date, share: 0.18 },
    { name: words.revision, text: facts.revision, share: 0.17 },
    { name: words.units, text: facts.units, share: 0.12 },
    { name: words.state, text: words.standing[facts.standing], share: 0.14, bold: true },
    { name: words.datum, text: facts.datum, share: 0.39 },
  ].map((field) => {
    const face = field.bold ? faces.bold : faces.regular;
    return {
      ...field,
      width: field.share * width,
      lines: face.wrap(field.text, FACT_mm, field.share * width - 2 * pad),
    };
  });
  const height = 4.2 + Math.max(...fields.map(({ lines }) => lines.length)) * FACT_FEED_mm;
  return {
    height,
    draw(pen: Pen) {
      let at = 0;
      for (const { name, lines, width: wide, bold } of fields) {
        pen.box([at, 0], wide, height, { width_mm: 0.2 });
        pen.text(name, [at + pad, 2.9], { size_mm: LABEL_mm });
        for (const [i, line] of lines.entries())
          pen.text(line, [at + pad, 3.6 + (i + 0.75) * FACT_FEED_mm], { size_mm: FACT_mm, bold: bold ?? false });
        at += wide;
      }
    },
  };
}
