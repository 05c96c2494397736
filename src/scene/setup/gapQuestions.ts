import type { SceneDocument } from "../document.ts";
import { lengthFault } from "./faults.ts";
import { always, type LengthQuestion, type Question } from "./question.ts";
import { SETUP_ROLE } from "./setupDocument.ts";

/** The gap wanted between `a` and everything; added in front of more special rules, so that those still hold. */
function ruleQuestion(a: string, id: string, usual_mm: number): LengthQuestion {
  const ruleOf = ({ clearances }: SceneDocument) => clearances.rules?.find((rule) => rule.a === a && rule.b === "*");
  return {
    kind: "length",
    id,
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
    fault: lengthFault(0, 150, "gap"),
  };
}

export const GAP_QUESTIONS: readonly Question[] = [
  {
    kind: "length",
    id: "gaps.default",
    section: "gaps",
    picture: { of: "gap" },
    isNeeded: false,
    isAsked: always,
    read: ({ clearances }) => clearances.default_mm,
    usual: () => 10,
    put: (document, default_mm) => ({ ...document, clearances: { ...document.clearances, default_mm } }),
    fault: lengthFault(0, 150, "gap"),
  },
  ruleQuestion("tyre", "gaps.tyre", 15),
  ruleQuestion(`role:${SETUP_ROLE}`, "gaps.exhaust", 25),
];
