import type { SceneDocument } from "../document.ts";
import { lengthFault } from "./faults.ts";
import { always, type LengthQuestion, type Question } from "./question.ts";

const MEND = "0 would allow parts to touch; more than 100 mm leaves no room for a car.";

/** The gap wanted between `a` and everything; added in front of more special rules, so that those still hold. */
function ruleQuestion(
  a: string,
  words: Pick<LengthQuestion, "id" | "ask" | "how" | "name">,
  usual_mm: number,
): LengthQuestion {
  const ruleOf = ({ clearances }: SceneDocument) => clearances.rules?.find((rule) => rule.a === a && rule.b === "*");
  return {
    ...words,
    kind: "length",
    section: "gaps",
    picture: { of: "gap" },
    isNeeded: false,
    isAsked: always,
    read: (document) => ruleOf(document)?.mm ?? null,
    usual: () => usual_mm,
    put(document, mm) {
      const { rules = [] } = document.clearances;
      const found = ruleOf(document);
      const next = found
        ? rules.map((rule) => (rule === found ? { ...rule, mm } : rule))
        : [...rules, { a, b: "*", mm }];
      return { ...document, clearances: { ...document.clearances, rules: next } };
    },
    fault: lengthFault(0, 150, MEND),
  };
}

export const GAP_QUESTIONS: readonly Question[] = [
  {
    kind: "length",
    id: "gaps.default",
    section: "gaps",
    ask: "What gap do you want between parts that move?",
    how: "A finger, 10 to 15 mm, is what inspectors put between a rubber-mounted engine and anything fixed.",
    name: "wanted gap",
    picture: { of: "gap" },
    isNeeded: false,
    isAsked: always,
    read: ({ clearances }) => clearances.default_mm,
    usual: () => 10,
    put: (document, default_mm) => ({ ...document, clearances: { ...document.clearances, default_mm } }),
    fault: lengthFault(0, 150, MEND),
  },
  ruleQuestion(
    "tyre",
    {
      id: "gaps.tyre",
      ask: "What gap do you want round the tyre?",
      how: "Tyres bulge and grow: 10 to 15 mm through the whole travel.",
      name: "wanted gap round the tyre",
    },
    15,
  ),
  ruleQuestion(
    "role:exhaust",
    {
      id: "gaps.exhaust",
      ask: "What gap do you want round the exhaust?",
      how: "25 mm to shielded things, 50 mm to bare rubber boots.",
      name: "wanted gap round the exhaust",
    },
    25,
  ),
];
