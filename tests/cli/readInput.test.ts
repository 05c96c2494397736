import { afterEach, describe, expect, it, vi } from "vitest";
import { main } from "../../src/cli/main.ts";
import { readInput } from "../../src/cli/readInput.ts";
import { terminalText } from "../../src/scene/shownText.ts";
import { testFolder } from "./terminal.ts";

const folder = testFolder();
const place = { code: "unreadable", file: "x", wanted: "a file" } as const;

describe("a file that is handed in", () => {
  it("is read whole up to the most that is wanted, and not beyond", async () => {
    const path = folder.save("ten.txt", "0123456789");
    expect(new TextDecoder().decode(await readInput(path, 10, place))).toBe("0123456789");
    await expect(readInput(path, 9, place)).rejects.toMatchObject({ code: "too-large" });
  });

  it.each([
    ["a folder", () => folder.at("."), /is no file/],
    ["what has no end", () => "/dev/zero", /is no file/],
    ["what is not there", () => folder.at("none"), /no such file/],
  ])("%s is told, not read", async (_, path, message) => {
    await expect(readInput(path(), 10, place)).rejects.toThrow(message);
  });
});

describe("the terminal", () => {
  afterEach(() => vi.restoreAllMocks());

  it("is not steered by what a file says, and JSON means the same", () => {
    // ECMA-48: ESC and the C1 controls begin what steers a terminal
    expect(terminalText("a\u001b[2J\u009b2J\nb\tc")).toBe("a\\u001b[2J\\u009b2J\nb\tc");
    const json = '{"title":"\u009b2J\u007f"}';
    expect(JSON.parse(terminalText(json))).toEqual(JSON.parse(json));
  });

  it("tells a fault of the program in one line, without its inner workings", async () => {
    const said: string[] = [];
    vi.spyOn(process.stderr, "write").mockImplementation((text) => said.push(String(text)) > 0);
    vi.spyOn(process.stdout, "write").mockImplementation(() => {
      throw new RangeError("invented\n    at nowhere (file.ts:1:1)");
    });
    expect(await main(["--help"])).toBe(3);
    expect(said.join("")).toMatch(/^elbowroom: the program itself failed \(RangeError: invented at nowhere[^\n]*\n$/);
  });
});
