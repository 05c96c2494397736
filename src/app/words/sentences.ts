import type { LimitVerdict, PairVerdict } from "../../check/result.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import { jointText } from "../loads/partNames.ts";
import type { Unit } from "../store/state.ts";
import { listText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { capital, engineText, nameOf, nameWithin } from "./names.ts";
import { angleText, lengthText, MM_PER_INCH, wantedText } from "./number.ts";
import { travelText } from "./travel.ts";

/** A sentence whose middle is what the eye must catch. */
export interface Sentence {
  readonly before: string;
  readonly strong: string;
  readonly after: string;
}

/** A text whose strong part stands between `<b>` and `</b>`. */
export function sentenceOf(text: string): Sentence {
  const [, before = "", strong = "", after = ""] = /^(.*?)<b>(.*)<\/b>(.*)$/s.exec(text) ?? [text, text];
  return { before, strong, after };
}

export function plain(sentence: Sentence): string {
  return sentence.before + sentence.strong + sentence.after;
}

/** Depth or distance without a sign; what a tenth would round to nothing is said as "under 0.1 mm". */
export function amountText(value_mm: number, unit: Unit): string {
  const size = Math.abs(value_mm);
  const least_mm = unit === "in" ? 0.0127 : 0.05;
  if (size > 0 && size < least_mm) return t("words.under", { amount: unit === "in" ? "0.001 in" : "0.1 mm" });
  return lengthText(size, unit);
}

/** The depth or distance of a pair; of one that is only proved to keep some after an edit "≥ 11.4 mm", never rounded up. */
export function pairAmount({ clearance_mm, isAtLeast }: PairVerdict, unit: Unit): string {
  if (!isAtLeast) return amountText(clearance_mm, unit);
  const step_mm = unit === "in" ? MM_PER_INCH / 1000 : 0.1;
  return `≥ ${lengthText(Math.floor(clearance_mm / step_mm) * step_mm, unit)}`;
}

/** "Upper link meets gearbox mount ear: 6.2 mm too deep at +38 bump"; "A passes B 2.8 mm off at −70 droop". */
export function pairSentence(pair: PairVerdict, scene: Scene | null, unit: Unit): Sentence {
  const [first, second] = namedFirst(pair, scene);
  const isStill = pair.side === "both";
  const values = {
    a: nameOf(first, scene),
    b: nameWithin(second, scene),
    amount: pairAmount(pair, unit),
    where: travelText(pair.at.travel_mm, unit),
  };
  if (pair.clearance_mm < 0) return sentenceOf(t(`words.pair.${isStill ? "meetsAlways" : "meets"}`, values));
  const how = pair.isAtLeast ? "passesAtLeast" : isStill ? "passesAlways" : "passes";
  return sentenceOf(t(`words.pair.${how}`, values));
}

/** "Both sides, right is closer, engine pulling; wants 10 mm". */
export function pairCircumstance(pair: PairVerdict, twin: PairVerdict | null, unit: Unit): string {
  const engine = pair.isAtLeast ? "" : engineText(pair.at.pose, pair.at.share);
  const state = listText([sideNote(pair, twin), engine].filter(Boolean), "unit");
  if (pair.clearance_mm < 0) return capital(state);
  const wanted = wantedText(pair.required_mm, unit);
  return capital(state ? t("words.pairWants", { state, wanted }) : t("words.wants", { wanted }));
}

function sideNote(pair: PairVerdict, twin: PairVerdict | null): string {
  if (pair.side === "both") return twin ? t("words.sides.both") : "";
  if (!twin) return t(`words.sides.${pair.side}`);
  const isCloser = !pair.isAtLeast && !twin.isAtLeast && twin.clearance_mm - pair.clearance_mm >= 0.05;
  return isCloser ? t(`words.closer.${pair.side}`) : t("words.sides.both");
}

/** The part that moves with the wheel is what the sentence speaks of; of two such, the first in the alphabet. */
export function namedFirst(pair: Pick<PairVerdict, "a" | "b">, scene: Scene | null): readonly [string, string] {
  return standing(pair.a, scene) > standing(pair.b, scene) ? [pair.b, pair.a] : [pair.a, pair.b];
}

/** 0: moves with the wheel; 1: the powertrain; 2: the chassis. */
function standing(id: string, scene: Scene | null): number {
  const on = scene?.bodies.find((body) => body.id === id)?.on;
  return on === "chassis" ? 2 : on === "powertrain" ? 1 : 0;
}

/** A limit that is passed, or how much is left to one that holds. */
export function limitSentence(limit: LimitVerdict, scene: Scene | null, unit: Unit): Sentence {
  const over = Math.abs(limit.value - limit.limit);
  const values = {
    amount: isAngle(limit) ? angleText(over, { digits: 1 }) : amountText(over, unit),
    where: travelText(limit.at.travel_mm, unit),
    joint: limit.joint === undefined ? "" : jointText(limit.joint, scene),
  };
  if (limit.verdict !== "clash") return sentenceOf(t(`words.limits.${limit.what}.spare`, values));
  if (limit.what !== "shaft-length" && limit.what !== "damper-length")
    return sentenceOf(t(`words.limits.${limit.what}.over`, values));
  const end = limit.value > limit.limit ? "over" : "under";
  return sentenceOf(t(`words.limits.${limit.what}.${end}`, values));
}

export function isAngle({ what }: Pick<LimitVerdict, "what">): boolean {
  return what === "inner-angle" || what === "outer-angle" || what === "joint-tilt" || what === "joint-twist";
}

/** What the limit is and what it came to: "Left, engine pulling; reaches 450.1 mm, longest 447.0 mm". */
export function limitCircumstance(
  limit: LimitVerdict,
  twin: LimitVerdict | null,
  scene: Scene | null,
  unit: Unit,
): string {
  const side = twin ? t("words.twoSides") : capital(t(`words.sides.${limit.side}`));
  if (limit.what === "binds" && limit.verdict === "clash") return t("words.limitState.binds", { side });
  const engine = engineText(limit.at.pose, limit.at.share);
  const head = t("words.limitState.at", { side, engine });
  if (limit.what === "binds") return head;
  const from_mm = limit.passedAt_mm;
  const isFurther = from_mm !== null && Math.abs(from_mm - limit.at.travel_mm) > 0.1;
  const state = isFurther ? t("words.limitState.from", { side, engine, where: travelText(from_mm, unit) }) : head;
  const size = (value: number): string => (isAngle(limit) ? angleText(value, { digits: 1 }) : lengthText(value, unit));
  return t(`words.limitReading.${nearerEnd(limit, scene)}`, {
    state,
    value: size(limit.value),
    limit: size(limit.limit),
  });
}

/** Which end of its reach the limit is; "limit" where the scene says none. */
function nearerEnd(limit: LimitVerdict, scene: Scene | null): "limit" | "shortest" | "longest" {
  const ends = endsOf(limit, scene);
  if (!ends) return "limit";
  return Math.abs(limit.limit - ends[0]) <= Math.abs(limit.limit - ends[1]) ? "shortest" : "longest";
}

function endsOf(limit: LimitVerdict, scene: Scene | null): readonly [number, number] | null {
  if (limit.what === "damper-length" && scene?.damper) return [scene.damper.closed_mm, scene.damper.open_mm];
  if (limit.what !== "shaft-length") return null;
  const inner = scene?.driveshaft?.inner[limit.side as Side];
  return inner ? [inner.shortest_mm ?? Number.NEGATIVE_INFINITY, inner.longest_mm ?? Number.POSITIVE_INFINITY] : null;
}
