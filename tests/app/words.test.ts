import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { directionText, eyeText } from "../../src/app/words/direction.ts";
import { engineText, nameOf } from "../../src/app/words/names.ts";
import { lengthText, MM_PER_INCH, numberText, wantedText } from "../../src/app/words/number.ts";
import {
  amountText,
  limitCircumstance,
  limitSentence,
  pairCircumstance,
  pairSentence,
  plain,
} from "../../src/app/words/sentences.ts";
import { spokenTravel, travelRange, travelText } from "../../src/app/words/travel.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import { pairVerdict, smallScene } from "./smallScene.ts";

const scene = resolveScene(smallScene());

describe("numbers", () => {
  it("an inch is 25.4 mm (international yard and pound agreement, 1959)", () => {
    expect(lengthText(MM_PER_INCH, "in")).toBe("1.000 in");
    expect(lengthText(6.2, "in")).toBe("0.244 in");
    expect(wantedText(10, "in")).toBe("0.39 in");
  });

  it("minus is a true minus, and nothing that rounds to zero has a sign", () => {
    expect(numberText(-6.24, { digits: 1 })).toBe("−6.2");
    expect(numberText(-0.04, { digits: 1 })).toBe("0.0");
    expect(numberText(0.04, { digits: 1, signed: true })).toBe("0.0");
  });

  it("what is written reads back to within half of its last digit", () => {
    fc.assert(
      fc.property(fc.double({ min: -500, max: 500, noNaN: true }), (value) => {
        const read = Number(numberText(value, { digits: 1, signed: true }).replace("−", "-"));
        expect(Math.abs(read - value)).toBeLessThanOrEqual(0.05 + 1e-9);
      }),
    );
  });

  it("a depth too small for a tenth is never written as nothing", () => {
    expect(amountText(-0.02, "mm")).toBe("under 0.1 mm");
    expect(amountText(-0.02, "in")).toBe("0.001 in");
    expect(amountText(0.004, "in")).toBe("under 0.001 in");
  });
});

describe("travel", () => {
  it("says bump and droop with their sign, and ride height by its name", () => {
    expect(travelText(38, "mm")).toBe("+38 bump");
    expect(travelText(-70, "mm")).toBe("−70 droop");
    expect(travelText(0, "mm")).toBe("ride height");
    expect(travelText(38.1, "in")).toBe("+1.50 bump");
    expect(travelText(-7.24, "mm")).toBe("−7.2 droop");
    expect(travelRange(-6, 80, "mm")).toBe("−6 to +80");
  });

  it("leaves the sign to the word where it is heard", () => {
    expect(spokenTravel(38, "mm")).toBe("38 bump");
    expect(spokenTravel(-70, "mm")).toBe("70 droop");
  });
});

describe("names", () => {
  it("ids become words, with the kind of member unless the id tells it", () => {
    expect(nameOf("upper", scene)).toBe("Upper wishbone");
    expect(nameOf("toe", scene)).toBe("Toe link");
    expect(nameOf("toe-link", { members: [{ ...scene.members[2]!, id: "toe-link" }] })).toBe("Toe link");
    expect(nameOf("gearbox-mount-ear", scene)).toBe("Gearbox mount ear");
  });

  it("engine poses read as English", () => {
    expect(engineText("rest")).toBe("engine at rest");
    expect(engineText("pulling")).toBe("engine pulling");
    expect(engineText("overrun")).toBe("engine on overrun");
    expect(engineText("overrun", 0.4)).toBe("engine 40 % of the way to overrun");
  });
});

describe("verdicts as sentences", () => {
  it("a clash says which part meets which, how deep and where; the part that moves with the wheel comes first", () => {
    expect(plain(pairSentence(pairVerdict(), scene, "mm"))).toBe(
      "Upper wishbone meets gearbox mount ear: 6.2 mm too deep at +38 bump",
    );
  });

  it("a tight pair passes, and says what is wanted", () => {
    const tight = pairVerdict({ clearance_mm: 2.8, verdict: "tight", at: { travel_mm: -70, pose: "pulling" } });
    expect(plain(pairSentence(tight, scene, "mm"))).toBe(
      "Upper wishbone passes gearbox mount ear 2.8 mm off at −70 droop",
    );
    expect(pairCircumstance(tight, null, "mm")).toBe("Left, engine pulling; wants 10 mm");
  });

  it("parts that stand still whatever the wheel does have no travel to name", () => {
    const still = pairVerdict({ side: "both", a: "gearbox-mount-ear", b: "rail", clearance_mm: 8.1, verdict: "tight" });
    expect(plain(pairSentence(still, scene, "mm"))).toBe(
      "Gearbox mount ear passes rail 8.1 mm off, whatever the travel",
    );
  });

  it("both sides in one row say which is closer, unless they are alike", () => {
    const left = pairVerdict();
    expect(pairCircumstance(left, pairVerdict({ side: "right", clearance_mm: -6.2 }), "mm")).toContain(
      "Both sides, engine",
    );
    const right = pairVerdict({ side: "right", clearance_mm: -8 });
    expect(pairCircumstance(right, left, "mm")).toBe("Both sides, right is closer, engine pulling");
  });

  it("a shaft that does not reach is too short, one that bottoms too long", () => {
    const limit = {
      side: "left",
      what: "shaft-length",
      verdict: "clash",
      limit: 447,
      passedAt_mm: -45,
      at: { travel_mm: -70, pose: "rest" },
    } as const;
    expect(plain(limitSentence({ ...limit, value: 450.1 }, null, "mm"))).toBe(
      "Driveshaft is 3.1 mm too short at −70 droop",
    );
    expect(plain(limitSentence({ ...limit, value: 416.6, limit: 419 }, null, "mm"))).toBe(
      "Driveshaft is 2.4 mm too long at −70 droop",
    );
    expect(limitCircumstance({ ...limit, value: 450.1 }, null, scene, "mm")).toBe(
      "Left, engine at rest from −45 droop; 450.1 mm, limit 447.0 mm",
    );
  });
});

describe("directions", () => {
  it("out is away from the centre plane on either side", () => {
    expect(directionText([0, 1, 0], "left")).toBe("outboard");
    expect(directionText([0, 1, 0], "right")).toBe("inboard");
    expect(directionText([0, 1, 0], "both")).toBe("left");
  });

  it("names what matters, the larger first", () => {
    expect(directionText([-0.8, 0.1, 0.59], "left")).toBe("back and up");
    expect(eyeText([-0.2, 0.1, 0.9])).toBe("above");
  });
});
