import type { LimitVerdict, PairVerdict } from "../../check/result.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import type { Unit } from "../store/state.ts";
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
  if (size > 0 && size < least_mm) return unit === "in" ? "under 0.001 in" : "under 0.1 mm";
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
  const still = pair.side === "both";
  const where = still ? "whatever the travel" : `at ${travelText(pair.at.travel_mm, unit)}`;
  const amount = pairAmount(pair, unit);
  if (pair.clearance_mm < 0) {
    return {
      before: `${nameOf(first, scene)} meets ${nameWithin(second, scene)}: `,
      strong: `${amount} too deep`,
      after: ` ${where}`,
    };
  }
  return {
    before: `${nameOf(first, scene)} passes ${nameWithin(second, scene)} `,
    strong: amount,
    after: pair.isAtLeast ? " off" : still ? " off, whatever the travel" : ` off ${where}`,
  };
}

/** "Both sides, right is closer, engine pulling; wants 10 mm". */
export function pairCircumstance(pair: PairVerdict, twin: PairVerdict | null, unit: Unit): string {
  const where = twin ? `both sides${closer(pair, twin)}` : pair.side === "both" ? "" : pair.side;
  const engine = pair.isAtLeast ? "" : engineText(pair.at.pose, pair.at.share);
  const parts = [where, engine].filter(Boolean).join(", ");
  const wants = pair.clearance_mm < 0 ? "" : `wants ${wantedText(pair.required_mm, unit)}`;
  return capital([parts, wants].filter(Boolean).join("; "));
}

function closer(pair: PairVerdict, twin: PairVerdict): string {
  if (pair.isAtLeast || twin.isAtLeast) return "";
  return twin.clearance_mm - pair.clearance_mm < 0.05 ? "" : `, ${pair.side} is closer`;
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
export function limitSentence(limit: LimitVerdict, unit: Unit): Sentence {
  const where = ` at ${travelText(limit.at.travel_mm, unit)}`;
  const over = Math.abs(limit.value - limit.limit);
  const long = limit.value > limit.limit;
  const passed = limit.verdict === "clash";
  const length = amountText(over, unit);
  const angle = angleText(over, { digits: 1 });
  switch (limit.what) {
    case "shaft-length":
      return passed
        ? { before: "Driveshaft is ", strong: `${length} too ${long ? "short" : "long"}`, after: where }
        : { before: "Driveshaft has ", strong: `${length} to spare`, after: where };
    case "damper-length":
      return passed
        ? { before: `Damper ${long ? "tops out" : "closes up"}: `, strong: `${length} past its end`, after: where }
        : { before: "Damper has ", strong: `${length} to spare`, after: where };
    case "stop":
      return passed
        ? { before: "Bump stop is solid: ", strong: `${length} past it`, after: where }
        : { before: "Bump stop has ", strong: `${length} to spare`, after: where };
    case "inner-angle":
    case "outer-angle": {
      const joint = limit.what === "inner-angle" ? "Inner shaft joint" : "Outer shaft joint";
      return passed
        ? { before: `${joint} bends `, strong: `${angle} too far`, after: where }
        : { before: `${joint} has `, strong: `${angle} to spare`, after: where };
    }
    case "joint-tilt":
      return passed
        ? { before: "A joint tilts ", strong: `${angle} too far`, after: where }
        : { before: "Joints have ", strong: `${angle} of tilt to spare`, after: where };
    case "binds":
      return passed
        ? { before: "The corner ", strong: "binds", after: where }
        : { before: "The corner ", strong: "runs through", after: " its whole travel" };
  }
}

/** What the limit is and what it came to: "Left, engine pulling; reaches 450.1 mm, longest 447.0 mm". */
export function limitCircumstance(
  limit: LimitVerdict,
  twin: LimitVerdict | null,
  scene: Scene | null,
  unit: Unit,
): string {
  const side = twin ? "Both sides" : capital(limit.side);
  const head = `${side}, ${engineText(limit.at.pose, limit.at.share)}`;
  if (limit.what === "binds") return limit.verdict === "clash" ? `${side}; shown only up to there` : head;
  const passed_mm = limit.passedAt_mm;
  const from =
    passed_mm !== null && Math.abs(passed_mm - limit.at.travel_mm) > 0.1 ? ` from ${travelText(passed_mm, unit)}` : "";
  const isAngle = limit.what.endsWith("angle") || limit.what === "joint-tilt";
  const size = (value: number): string => (isAngle ? angleText(value, { digits: 1 }) : lengthText(value, unit));
  return `${head}${from}; ${size(limit.value)}, ${limitWord(limit, scene)} ${size(limit.limit)}`;
}

function limitWord(limit: LimitVerdict, scene: Scene | null): string {
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
