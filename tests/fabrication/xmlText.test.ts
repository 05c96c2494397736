import { SaxesParser } from "saxes";
import { expect, it } from "vitest";
import { xmlText } from "../../src/fabrication/xmlText.ts";

/** What a strict reader of XML 1.0 (saxes) reads it as. */
function read(text: string): string {
  let whole = "";
  const parser = new SaxesParser({});
  parser.on("error", (error) => {
    throw error;
  });
  parser.on("text", (piece) => {
    whole += piece;
  });
  parser.write(`<t a="${text}" b='${text}'>${text}</t>`).close();
  return whole;
}

it("writes every code unit so that XML 1.0 takes it, and what is text stays what it is", () => {
  for (let from = 0; from < 0x10000; from += 0x400) {
    const units = Array.from({ length: 0x400 }, (_, i) => String.fromCharCode(from + i));
    // XML 1.0, production 2, without the controls, which are of no use on a drawing
    const held = units.map((unit) => (/[\p{Cc}\p{Cs}\ufffe\uffff]/u.test(unit) ? " " : unit));
    expect(read(xmlText(units.join("x")))).toBe(held.join("x"));
  }
  expect(read(xmlText("🔧 \u{10ffff} </text>&amp;<![CDATA[ ]]> <!-- -->"))).toBe(
    "🔧 \u{10ffff} </text>&amp;<![CDATA[ ]]> <!-- -->",
  );
});
