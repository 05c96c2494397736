import { describe, expect, it } from "vitest";
import { lengthFaultText } from "../../../src/app/points/lengthFaultText.ts";
import { parseLength } from "../../../src/scene/length.ts";

describe("what is no length is told with what to write", () => {
  const told = (text: string, names: readonly string[] = ["upper.in", "left-rail"]) => {
    const read = parseLength(text, "mm", { names, valueOf_mm: () => 0 });
    return read.ok ? "" : lengthFaultText(read);
  };

  it.each([
    ["wide", "Not a length. Try 9.5in or 12+4"],
    ["2000m", "Farther than 1 km. Is the unit right?"],
    ["9-7/16", "9-7/16 reads two ways. Write 9 7/16 or 9 - 7/16"],
    ["1'-4", "1'-4 reads two ways. Write 1' 4 or 1' - 4"],
    ["1,200", "1,200 reads two ways. Write 1200 or 1.200"],
    ["=", "Write a point behind =, as in =upper.in+12"],
    ["=upper.in 12", "Write + or − behind upper.in, as in =upper.in+12"],
    ["=uper.in", 'There is no point named "uper.in". upper.in?'],
    ["=zzzzzz", 'There is no point named "zzzzzz". There is upper.in, left-rail'],
  ])("%s", (text, words) => {
    expect(told(text)).toBe(words);
  });

  it("also where no point has a name", () => {
    expect(told("=zzzzzz", [])).toBe('There is no point named "zzzzzz".');
  });
});
