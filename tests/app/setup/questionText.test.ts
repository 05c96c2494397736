import { describe, expect, it } from "vitest";
import { answerName, askText, faultText, howText, optionText, textKey } from "../../../src/app/setup/questionText.ts";
import { setupQuestions } from "../../../src/app/text/en/setupQuestions.ts";
import type { SetupFault } from "../../../src/scene/setup/faults.ts";
import { beginSetup, questionsOf } from "../../../src/scene/setup/setup.ts";
import { CORNER_KINDS, type CornerKind } from "../../../src/scene/setup/setupDocument.ts";

const questionOf = (kind: CornerKind, id: string) => questionsOf(kind).find((question) => question.id === id)!;

describe("the words of the guided set-up", () => {
  it.each(CORNER_KINDS)("say of a %s corner what to measure, each answer with a name of its own", (kind) => {
    const questions = questionsOf(kind);
    for (const question of questions) {
      expect(askText(question), question.id).toMatch(/^[A-Z].*\?$/);
      expect(howText(question), question.id).toMatch(/^[A-Z0-9].*\.$/);
    }
    expect(new Set(questions.map(answerName)).size).toBe(questions.length);
  });

  it("are asked for, all of them", () => {
    const asked = new Set<string>(CORNER_KINDS.flatMap((kind) => questionsOf(kind).map(textKey)));
    expect(Object.keys(setupQuestions).filter((key) => !asked.has(key))).toEqual([]);
  });

  it("tell a wishbone from a link, and a strut's damper from another", () => {
    expect(askText(questionOf("hub-and-arm", "lower.out"))).toBe("Where is the outboard end of the lower link?");
    expect(askText(questionOf("strut", "lower.out"))).toBe("Where is the outboard end of the lower wishbone?");
    expect(askText(questionOf("strut", "damper.there"))).toBe("Is the strut's damper chosen?");
  });

  it("name the usual answers, and a member by its id", () => {
    expect(optionText("carrier")).toBe("The hub side");
    expect(optionText("upper-front")).toBe("Upper-front");
  });
});

describe("an answer that cannot be", () => {
  const begun = beginSetup("hub-and-arm");
  const told = (id: string, value: unknown, unit: "mm" | "in" = "mm") => {
    const judge = questionOf("hub-and-arm", id).fault as (value: unknown, document: typeof begun) => SetupFault | null;
    return faultText(judge(value, begun)!, unit);
  };

  it.each([
    ["wheel.tyre", "205 by 55", /no tyre size.*205\/55R16/],
    ["wheel.rimWidth_in", 165, /^165 inches is too much: 3 to 16 can be\./],
    ["wheel.rimOffset_mm", 420, /too much: −120.0 mm to 150.0 mm.*sign/],
    ["wheel.centre", [0, 1480, 305], /half of the track/],
    ["wheel.centre", [0, 740, 30], /from the ground/],
    ["wheel.camber_deg", 30, /top leaning in/],
    ["upper.in", [5800, 318, 412], /datum.*unit.*signs/],
    ["travel.bump_mm", 0, /too little/],
    ["title", " ", /name/],
  ])("%s as %j is told with its mend", (id, value, words) => {
    expect(told(id, value)).toMatch(words);
  });

  it("is told in the unit that is shown", () => {
    expect(told("wheel.rimOffset_mm", 420, "in")).toMatch(/16\.535 in is too much/);
  });
});
