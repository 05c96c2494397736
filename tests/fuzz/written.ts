import { NodeIO } from "@gltf-transform/core";
import { PDFiumLibrary } from "@hyzyla/pdfium";
import DxfParser from "dxf-parser";
import { decode } from "fast-png";
import { unzipSync } from "fflate";
import MarkdownIt from "markdown-it";
import Papa from "papaparse";
import { type DefaultTreeAdapterTypes, parse } from "parse5";
import { SaxesParser } from "saxes";
import { importMesh } from "../../src/geometry/importMesh.ts";
import { holds } from "./door.ts";

/** Beginnings of what leads out of a file, or runs. */
const ADDRESS = /^[\s\p{Cc}]*(?:[a-z][a-z0-9+.-]*:|\/\/)/iu;
const RUNS = new Set([
  "script",
  "iframe",
  "object",
  "embed",
  "foreignobject",
  "handler",
  "base",
  "form",
  "meta",
  "link",
]);
const LEADS = new Set(["href", "src", "srcset", "xlink:href", "action", "formaction", "data", "poster", "background"]);

/** Holds a written file to its format, read by another library than wrote it, and to holding nothing that runs or leads elsewhere. */
export async function holdsFile(name: string, bytes: Uint8Array): Promise<void> {
  const text = () => new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  const ending = /\.([a-z]+)$/.exec(name)?.[1];
  switch (ending) {
    case "svg":
      return holdsSvg(text());
    case "html":
      return holdsHtml(text());
    case "dxf":
      return holdsDxf(text());
    case "pdf":
      return holdsPdf(bytes);
    case "csv":
      return holdsCsv(text());
    case "md":
      return holdsMarkdown(text());
    case "zip":
      return holdsZip(bytes);
    case "json":
      JSON.parse(text());
      return;
    case "png":
      decode(bytes);
      return;
    case "glb":
      await new NodeIO().readBinary(bytes);
      return;
    case "stl":
    case "obj":
      if (ending === "obj")
        holds(/^(?:(?:[#ogfv]|vn|usemtl|mtllib|s) .*\n|\n)*$/.test(text()), "OBJ: lines that it has");
      await importMesh(bytes, name, "mm");
      return;
    default:
      holds(/\.(?:jpg|webp|txt)$/.test(name), `a file of a kind that is known: ${name}`);
  }
}

function holdsElement(kind: string, tag: string, attributes: Iterable<readonly [string, string]>): void {
  holds(!RUNS.has(tag.toLowerCase()), `${kind}: no <${tag}>`);
  for (const [attribute, value] of attributes) {
    const name = attribute.toLowerCase();
    holds(!name.startsWith("on"), `${kind}: no ${name}`);
    const isPicture = /^data:image\/(?:png|jpeg|webp);base64,[A-Za-z0-9+/=]*$/.test(value);
    if (LEADS.has(name))
      holds(isPicture || !ADDRESS.test(value), `${kind}: no address in ${name}: ${value.slice(0, 80)}`);
    if (name === "style") holds(!/url\(|expression|import/i.test(value), `${kind}: no address in a style`);
  }
}

/** XML 1.0 by a parser that refuses what is not well formed. */
function holdsSvg(text: string): void {
  const parser = new SaxesParser({ xmlns: true });
  parser.on("error", (error) => holds(false, `SVG: ${error.message}`));
  parser.on("doctype", () => holds(false, "SVG: no document type"));
  parser.on("processinginstruction", () => holds(false, "SVG: no instructions to a program"));
  parser.on("opentag", ({ name, attributes }) => {
    const all = Object.values(attributes).map(({ name: key, value }) => [key, value] as const);
    holdsElement("SVG", name, all);
  });
  parser.write(text).close();
}

/** The HTML standard's parser; the log itself is the one script, of data. */
function holdsHtml(text: string): void {
  const visit = (node: DefaultTreeAdapterTypes.Node): void => {
    if ("tagName" in node) {
      const attributes = new Map(node.attrs.map(({ name, value }) => [name, value]));
      const isData = node.tagName === "script" && attributes.get("type") === "application/json";
      const isPolicy = node.tagName === "meta" && attributes.get("http-equiv") !== "refresh";
      if (!isData && !isPolicy) holdsElement("page", node.tagName, attributes);
    }
    if ("childNodes" in node) for (const child of node.childNodes) visit(child);
  };
  visit(
    parse(text, {
      onParseError: ({ code }) => holds(/control-character|noncharacter|surrogate/.test(code), `page: ${code}`),
    }),
  );
}

/** Pairs of a group code and its value (DXF reference, "About the DXF format"), and another reader. */
function holdsDxf(text: string): void {
  const lines = text.replace(/\r?\n$/, "").split(/\r\n|\r|\n/);
  holds(lines.length % 2 === 0, "DXF: codes and values in pairs");
  for (let i = 0; i < lines.length; i += 2) holds(/^ *-?\d+$/.test(lines[i]!), `DXF: a code, not "${lines[i]}"`);
  holds(new DxfParser().parseSync(text) !== null, "DXF: read by a reader");
}

let pdfium: Promise<PDFiumLibrary> | null = null;

async function holdsPdf(bytes: Uint8Array): Promise<void> {
  pdfium ??= PDFiumLibrary.init();
  const pdf = await (await pdfium).loadDocument(bytes);
  try {
    holds(pdf.getPageCount() > 0, "PDF: a page");
    for (const page of pdf.pages()) page.getText();
  } finally {
    pdf.destroy();
  }
  // names of what acts (ISO 32000-1, 12.6.4), outside of packed streams
  const bare = new TextDecoder("latin1").decode(bytes).replace(/stream\r?\n[\s\S]*?endstream/g, "");
  holds(
    !/\/(?:JavaScript|JS|URI|Launch|OpenAction|AA|SubmitForm|GoToR|EmbeddedFile)\b/.test(bare),
    "PDF: nothing that acts",
  );
}

function holdsCsv(text: string): void {
  const { data, errors } = Papa.parse<string[]>(text.replace(/\n$/, ""), { delimiter: "," });
  holds(errors.length === 0, `CSV: ${errors[0]?.message}`);
  holds(
    data.every((row) => row.length === data[0]!.length),
    "CSV: as many values in every line",
  );
}

/** By a reader that takes HTML and finds addresses in plain text. */
function holdsMarkdown(text: string): void {
  const html = new MarkdownIt({ html: true }).render(text);
  holdsHtml(`<!doctype html><html><head><title>x</title></head><body>${html}</body></html>`);
}

async function holdsZip(bytes: Uint8Array): Promise<void> {
  for (const [name, content] of Object.entries(unzipSync(bytes))) {
    holds(
      !/^[/\\]|^[a-z]:|(?:^|[/\\])\.\.(?:[/\\]|$)|\p{Cc}/iu.test(name),
      `ZIP: no way out of it: ${JSON.stringify(name)}`,
    );
    await holdsFile(name, content);
  }
}
