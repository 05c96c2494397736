import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";

// Contrast by WCAG 2.2, "relative luminance" and "contrast ratio": text 4.5 (1.4.3), marks 3 (1.4.11).

const css = readFileSync(new URL("../../src/app/style/tokens.css", import.meta.url), "utf8");

function tokens(theme: string): Record<string, string> {
  const block = css.slice(css.indexOf(`[data-theme="${theme}"]`));
  const body = block.slice(0, block.indexOf("}"));
  return Object.fromEntries([...body.matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map(([, name, value]) => [name, value]));
}

function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}

function contrast(a: string, b: string): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light! + 0.05) / (dark! + 0.05);
}

describe.each(["daylight", "garage"])("colours of %s", (theme) => {
  const colour = tokens(theme);

  it("the formula gives 21 for black on white", () => expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 9));

  it.each([
    ["ink", "sheet"],
    ["ink2", "sheet"],
    ["ink3", "sheet"],
    ["ink", "paper"],
    ["ink2", "paper"],
    ["ink3", "paper"],
    ["ink2", "fill"],
    ["ink3", "fill"],
    ["ink2", "held-row"],
    ["clash-text", "sheet"],
    ["clash-text", "clash-wash"],
    ["clash-text", "held-row"],
    ["tight-text", "sheet"],
    ["tight-text", "held-row"],
    ["clear-text", "sheet"],
    ["tried-text", "sheet"],
    ["limit-text", "sheet"],
    ["ink", "clash-wash"],
    ["ink", "tight-wash"],
    ["go-text", "go"],
    ["inverse", "ink"],
  ])("text %s on %s is at least 4.5", (text, ground) => {
    expect(contrast(colour[text]!, colour[ground]!)).toBeGreaterThanOrEqual(4.5);
  });

  it.each(["clash", "tight", "clear", "line2", "limit-edge"])("mark %s on sheet is at least 3", (mark) => {
    expect(contrast(colour[mark]!, colour.sheet!)).toBeGreaterThanOrEqual(3);
  });
});
