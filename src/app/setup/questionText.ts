import { formatLength, type LengthUnit } from "../../scene/length.ts";
import { CENTRE_OUT_MM, CENTRE_UP_MM, type SetupFault } from "../../scene/setup/faults.ts";
import type { Question } from "../../scene/setup/question.ts";
import type { en } from "../text/en/index.ts";
import { t } from "../text/text.ts";
import { capital } from "../words/names.ts";

type Key = keyof (typeof en)["setupQuestions"];

/** Under which key the catalogue holds what a question says: a dot would part a key. */
export function textKey({ id, of }: Pick<Question, "id" | "of">): Key {
  return [...id.split("."), ...(of ? [of] : [])].join("-") as Key;
}

/** The question in one sentence. */
export function askText(question: Question): string {
  return t(`setupQuestions.${textKey(question)}.ask`);
}

/** What to measure, from where and with what; common practice, no source. */
export function howText(question: Question): string {
  return t(`setupQuestions.${textKey(question)}.how`);
}

/** What the answer is called in steps and lists: "wheel centre". */
export function answerName(question: Question): string {
  return t(`setupQuestions.${textKey(question)}.name`);
}

type Option = keyof (typeof en)["setup"]["options"];
const OPTIONS: ReadonlySet<string> = new Set<Option>([
  "yes",
  "no",
  "both",
  "left",
  "right",
  "bolted",
  "balls",
  "image",
  "own",
  "carrier",
]);

/** One of a few answers in words; of a member its id. */
export function optionText(value: string): string {
  return OPTIONS.has(value) ? t(`setup.options.${value as Option}`) : capital(value);
}

/** Why an answer cannot be right, and what to look at; lengths in `unit`. */
export function faultText(fault: SetupFault, unit: LengthUnit): string {
  const size = (mm: number) => formatLength(mm, unit, { withUnit: true });
  switch (fault.code) {
    case "too-little":
    case "too-much": {
      const mend = t(`setup.mends.${fault.mend}`);
      if (fault.unit === "mm") {
        const [value, min, max] = [size(fault.value), size(fault.min), size(fault.max)];
        return t(`setup.faults.${fault.code}`, { value, min, max, mend });
      }
      const value = t("setup.step", { step: fault.value, unit: t(`setup.units.${fault.unit}`) });
      return t(`setup.faults.${fault.code}`, { value, min: fault.min, max: fault.max, mend });
    }
    case "far-off":
    case "centre-forward":
      return t(`setup.faults.${fault.code}`, { size: size(fault.size_mm) });
    case "centre-out":
    case "centre-up": {
      const [min_mm, max_mm] = fault.code === "centre-out" ? CENTRE_OUT_MM : CENTRE_UP_MM;
      return t(`setup.faults.${fault.code}`, { size: size(fault.size_mm), min: size(min_mm), max: size(max_mm) });
    }
    case "title":
      return t("setup.faults.title");
    case "tyre":
      return t("setup.faults.tyre", { written: fault.written, wrong: fault.wrong, wanted: fault.wanted });
  }
}
