import { afterEach, describe, expect, it } from "vitest";
import { countText, dateText, listText, locale, withinText } from "../../../src/app/text/formats.ts";
import { readText, t } from "../../../src/app/text/text.ts";

const DAY = { weekday: "short", day: "numeric", month: "short", year: "numeric" } as const;
// 12 November 2026 is a Thursday
const date = new Date(2026, 10, 12, 21, 5);

afterEach(() => readText("en"));

// forms of lists and dates: Unicode CLDR, locales en-GB and de, as ECMA-402 gives them
describe("what depends on the language beside words", () => {
  it("is English where no other language was chosen", () => {
    expect(locale()).toBe("en-GB");
    expect(listText(["a", "b", "c"])).toBe("a, b and c");
    expect(listText(["a", "b", "c"], "unit")).toBe("a, b, c");
    expect(dateText(date, DAY)).toBe("Thu, 12 Nov 2026");
    expect(countText(12_345)).toBe("12,345");
    expect(withinText("Upper link")).toBe("upper link");
  });

  it("follows the language that is chosen", async () => {
    await readText("de");
    expect(t("tools.close")).toBe("Schließen");
    expect(listText(["a", "b", "c"])).toBe("a, b und c");
    expect(dateText(date, DAY)).toBe("Do., 12. Nov. 2026");
    expect(countText(12_345)).toBe("12\u202f345");
    expect(withinText("Oberer Lenker")).toBe("Oberer Lenker");
  });
});
