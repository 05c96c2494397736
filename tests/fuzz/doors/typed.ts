import fc from "fast-check";
import { mayBeLog } from "../../../src/buildlog/anyLog.ts";
import { numberOf, rangeOf, shareOf, stepsOf, tripleOf } from "../../../src/cli/numbers.ts";
import { formatLength, parseLength } from "../../../src/scene/length.ts";
import { meshPathFault } from "../../../src/scene/meshPath.ts";
import { parseTyre } from "../../../src/scene/tyre.ts";
import { type Door, type Handed, holds } from "../door.ts";

const NAMES = ["upper.in", "left-rail", "left", "2nd link", "-", "a+b", "x".repeat(80)];
const piece = fc.constantFrom(
  ...[
    "1",
    "9",
    "12",
    "7/16",
    "3/8",
    "1/0",
    "9-7/16",
    "1,200",
    "9,5",
    ".5",
    "5.",
    "1'",
    "1' 4",
    '"',
    "''",
    "′",
    "″",
    "⁄",
    "½",
  ],
  ...[
    "mm",
    "cm",
    "m",
    "in",
    "ft",
    "feet",
    "inch",
    " ",
    "+",
    "-",
    "−",
    "–",
    "=",
    "upper.in",
    '"2nd link"',
    "left-rail",
    "\uE000",
  ],
  ...["1e9", "0x1", "NaN", "Infinity", "9".repeat(50), "\u202e", "<b>", "٣", "\0"],
);
/** Any code points; the library's own strings of them take most of a second to be set up. */
const anyText = fc
  .array(fc.integer({ min: 0, max: 0x10ffff }), { maxLength: 12 })
  .map((points) => String.fromCodePoint(...points.filter((point) => point < 0xd800 || point > 0xdfff)));
const typed = fc.oneof(
  { weight: 6, arbitrary: fc.array(piece, { maxLength: 10 }).map((parts) => parts.join("")) },
  {
    weight: 2,
    arbitrary: fc.tuple(piece, fc.integer({ min: 1, max: 300 })).map(([part, times]) => part.repeat(times)),
  },
  { weight: 1, arbitrary: anyText },
);

async function openLength({ content }: Handed): Promise<void> {
  const text = String(content);
  const references = { names: NAMES, valueOf_mm: () => 12.5 };
  for (const unit of ["mm", "in"] as const) {
    for (const given of [undefined, references]) {
      const read = parseLength(text, unit, given);
      if (!read.ok) {
        holds(JSON.stringify(read).length < 1000, "a refusal that can be read");
        continue;
      }
      holds(Math.abs(read.mm) <= 1_000_000, "no farther than a million millimetres");
      const again = parseLength(formatLength(read.mm, "mm", { decimals: 9 }), "mm");
      holds(again.ok && Math.abs(again.mm - read.mm) < 1e-8, "the same when written and read again");
    }
  }
}

const options = fc.oneof(
  {
    weight: 3,
    arbitrary: fc
      .array(
        fc.constantFrom("1", "-1", ":", ",", "/", "0.5", "1e9", "1e-9", "1e999", "NaN", " ", "0x10", "", "3", "16"),
        { maxLength: 7 },
      )
      .map((parts) => parts.join("")),
  },
  { weight: 1, arbitrary: fc.string() },
);

async function openOption({ content }: Handed): Promise<void> {
  const text = String(content);
  const readers: (() => readonly number[])[] = [
    () => [numberOf("at", text, 0)],
    () => rangeOf("camber", text),
    () => tripleOf("place", text),
    () => stepsOf("roll", text, 20),
    () => Object.values(shareOf(text)),
  ];
  const refusals: unknown[] = [];
  for (const read of readers) {
    try {
      const numbers = read();
      holds(numbers.every(Number.isFinite) && numbers.length <= 10_001, "finite numbers, no more than are asked for");
    } catch (error) {
      refusals.push(error);
    }
  }
  if (refusals.length > 0)
    throw refusals.find((error) => !(error instanceof Error && error.name === "InputError")) ?? refusals[0];
}

const names = fc.oneof(
  fc
    .array(
      fc.constantFrom(
        "..",
        ".",
        "/",
        "\\",
        "scan",
        ".stl",
        ".GLB",
        "C:",
        "file:",
        "\0",
        "\n",
        "%2e%2e",
        " ",
        "~",
        "CON",
      ),
      { maxLength: 8 },
    )
    .map((parts) => parts.join("")),
  anyText,
);

/** Names that a scene gives to files beside it, and sizes of tyres. */
async function openName({ content }: Handed): Promise<void> {
  const text = String(content);
  if (meshPathFault(text) === null) {
    const place = new URL(encodeURI(text).replaceAll("?", "%3F").replaceAll("#", "%23"), "file:///a/b/").pathname;
    holds(place.startsWith("/a/b/"), `within the folder: ${JSON.stringify(text)}`);
  }
  mayBeLog(new TextEncoder().encode(text));
  parseTyre(text, { file: "scene.json", path: "wheel.tyre" });
}

const said = (name: string, share: number, texts: fc.Arbitrary<string>, open: Door["open"]): Door => ({
  name,
  share,
  ending: "txt",
  cases: texts.map((content) => ({ file: "typed", content })),
  open,
});

export const TYPED_DOORS: readonly Door[] = [
  said("length", 80, typed, openLength),
  said("option", 40, options, openOption),
  said("name", 30, names, openName),
];
