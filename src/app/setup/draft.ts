import type { Vec3 } from "../../maths/vec3.ts";
import { fromDatum, toDatum } from "../../scene/datum.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { formatLength, parseLength } from "../../scene/length.ts";
import type { Datum } from "../../scene/scene.ts";
import type { SetupFault } from "../../scene/setup/faults.ts";
import type { Answer, ChoiceQuestion, Question } from "../../scene/setup/question.ts";
import { lengthFaultText } from "../points/lengthFaultText.ts";
import { pointSums } from "../points/pointSums.ts";
import { DIRECTIONS, type Direction } from "../points/usePointMove.ts";
import type { Unit } from "../store/state.ts";
import { withinText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { faultText, optionText } from "./questionText.ts";

export type FieldKey = Direction | "value";

/** What the fields of a question hold, as typed. */
export type DraftTexts = Readonly<Partial<Record<FieldKey, string>>>;

export interface DraftSetting {
  readonly document: SceneDocument;
  readonly datum: Datum | null;
  readonly unit: Unit;
}

export interface DraftReading {
  /** null: something is missing, or wrong. */
  readonly value: Answer | null;
  /** By field, why what stands there is none. */
  readonly faults: ReadonlyMap<FieldKey, string>;
  /** Why the answer as a whole cannot be. */
  readonly fault: string | null;
}

export type AskedQuestion = Exclude<Question, ChoiceQuestion>;

export function fieldsOf({ kind }: AskedQuestion): readonly FieldKey[] {
  return kind === "place" ? DIRECTIONS : ["value"];
}

/** An answer as the fields would show it. */
export function textsOf(question: AskedQuestion, value: Answer, { datum, unit }: DraftSetting): DraftTexts {
  if (question.kind === "place") {
    const { forward_mm, out_mm, up_mm } = toDatum(datum, value as Vec3, question.side);
    return { forward: lengthField(forward_mm, unit), out: lengthField(out_mm, unit), up: lengthField(up_mm, unit) };
  }
  if (question.kind === "length") return { value: lengthField(value as number, unit) };
  return { value: String(value).replace("-", "−") };
}

/** Reads the fields. One that stands as `before` gives means that very value, however it was rounded for showing. */
export function readDraft(
  question: AskedQuestion,
  texts: DraftTexts,
  setting: DraftSetting,
  before: Answer | null,
): DraftReading {
  const shown = before === null ? {} : textsOf(question, before, setting);
  const faults = new Map<FieldKey, string>();
  const value = question.kind === "place" ? typedPlace() : typedValue();
  const judge = question.fault as (answer: Answer, document: SceneDocument) => SetupFault | null;
  const wrong = value === null ? null : judge(value, setting.document);
  return { value: wrong === null ? value : null, faults, fault: wrong && faultText(wrong, setting.unit) };

  function typedPlace(): Vec3 | null {
    if (question.kind !== "place") return null;
    const old = before === null ? null : toDatum(setting.datum, before as Vec3, question.side);
    const read = DIRECTIONS.map((direction) => {
      const text = texts[direction] ?? "";
      if (old && text === shown[direction]) return old[`${direction}_mm`];
      return lengthOf(direction, text, pointSums(setting.document, setting.datum, direction));
    });
    if (read.some((mm) => mm === null)) return null;
    const [forward_mm, out_mm, up_mm] = read as number[];
    const place = { forward_mm: forward_mm!, out_mm: out_mm!, up_mm: up_mm! };
    return fromDatum(setting.datum, place, question.side);
  }

  function typedValue(): Answer | null {
    const text = texts.value ?? "";
    if (before !== null && text === shown.value) return before;
    if (text.trim() === "") return null;
    if (question.kind === "text") return text.trim();
    if (question.kind === "length") return lengthOf("value", text);
    const number = Number(text.trim().replace(",", ".").replace(/^[−–]/, "-"));
    if (Number.isFinite(number)) return number;
    faults.set("value", t("setup.noNumber"));
    return null;
  }

  function lengthOf(key: FieldKey, text: string, references?: ReturnType<typeof pointSums>): number | null {
    if (text.trim() === "") return null;
    const length = parseLength(text, setting.unit, references);
    if (length.ok) return length.mm;
    faults.set(key, lengthFaultText(length));
    return null;
  }
}

/** An answer in words: "205/55R16", "40.0 mm", "forward 58.0, out 318.0, up 412.0". */
export function answerWords(question: Question, value: Answer, setting: DraftSetting): string {
  if (question.kind === "choice") return withinText(optionText(String(value)));
  const texts = textsOf(question, value, setting);
  if (question.kind === "place") return `${texts.forward}, ${texts.out}, ${texts.up}`;
  if (question.kind === "length") return t("setup.step", { step: texts.value ?? "", unit: setting.unit });
  if (question.kind === "text") return texts.value ?? "";
  return t("setup.step", { step: texts.value ?? "", unit: t(`setup.units.${question.unit}`) });
}

function lengthField(mm: number, unit: Unit): string {
  return formatLength(mm, unit);
}
