import fc from "fast-check";

/** What is read as something else than text where it is not written as text: by HTML, XML, DXF, PDF, Markdown, tables, our own words. */
const PIECES = [
  ...["<script>globalThis.ran=1</script>", "<img src=x onerror=alert(1)>", "</text></svg><svg onload=alert(1)>", "<b>"],
  ...["</title>", "-->", "<!--", "]]>", "<![CDATA[", "<?xml version='1.0'?>", '<!DOCTYPE x [<!ENTITY y "z">]>', "&y;"],
  ...["&", "&amp;", "&#x1;", "<", ">", '"', "'", "' onmouseover='alert(1)", '" href="javascript:alert(1)'],
  ...["javascript:alert(1)", "https://elsewhere.invalid/x.png", "url(//elsewhere.invalid/x)", "file:///etc/passwd"],
  ...[
    "[x](javascript:alert(1))",
    "![x](//elsewhere.invalid/x.png)",
    "<https://elsewhere.invalid>",
    "*",
    "`",
    "|",
    "# ",
  ],
  ...[
    ") Tj ET",
    "endstream endobj",
    "%%EOF",
    "<< /JS (x) >>",
    "\\",
    "(",
    ")",
    "%%c",
    "\\P",
    "\\U+0041",
    "^J",
    "{",
    "}",
  ],
  ...["=1+1", "=cmd|' /C calc'!A0", "@x", "+1", "-1", ",", ";", '""', "{{title}}", "$t(x)", "$&", "$1", "%s", "\ufffe"],
  ...[
    "../",
    "..\\",
    "/",
    "C:",
    "CON",
    "\u202e",
    "\u200b",
    "\ufeff",
    "\ud800",
    "\udc00",
    "é",
    "e\u0301",
    "日本",
    "🔧",
    "٣",
  ],
  ...["constructor", "__proto__", "toString", "null", "W".repeat(80), "a b", " ", "x"],
];
const CONTROLS = ["\0", "\n", "\r\n", "\t", "\u0007", "\u001b[2J", "\u0085", "\u2028"];

const anyCharacter = fc.integer({ min: 0x20, max: 0xffff }).map((unit) => String.fromCharCode(unit));

/** Titles and notes. */
export const hostileText = fc
  .array(
    fc.oneof(
      { weight: 8, arbitrary: fc.constantFrom(...PIECES) },
      { weight: 2, arbitrary: fc.constantFrom(...CONTROLS) },
      { weight: 1, arbitrary: anyCharacter },
    ),
    { maxLength: 6 },
  )
  .map((pieces) => pieces.join("").slice(0, 190));

/** Names as a scene takes them: up to 80 characters on one line. */
export const hostileName = fc
  .array(fc.oneof({ weight: 8, arbitrary: fc.constantFrom(...PIECES) }, { weight: 1, arbitrary: anyCharacter }), {
    minLength: 1,
    maxLength: 4,
  })
  .map((pieces) => {
    const name = pieces
      .join("")
      // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what no name has
      .replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]/g, "")
      .slice(0, 80)
      .replace(/^ +| +$/g, "");
    return name || "x";
  });
