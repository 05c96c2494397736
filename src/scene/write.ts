import type { SceneDocument } from "./document.ts";

const LINE_WIDTH = 118;

/**
 * The scene as the text of a file: stable (equal documents in equal key order give equal texts), readable (a point,
 * a member or a rule on one line where it fits) and read back by readScene to an equal document.
 */
export function writeScene(document: SceneDocument): string {
  return `${block(document, "", 0)}\n`;
}

/** The top level and the lists and records right below it always open up; deeper values do when they do not fit. */
function block(value: unknown, indent: string, depth: number, lead = 0): string {
  if (!isNest(value)) return JSON.stringify(value);
  const always = depth === 0 || (depth === 1 && Object.values(value).some(isNest));
  const line = always ? null : inline(value, LINE_WIDTH - indent.length - lead);
  if (line !== null) return line;
  const inner = `${indent}  `;
  if (Array.isArray(value)) {
    if (value.length === 0) return "[]";
    const items = value.map((item) => inner + block(item, inner, depth + 1));
    return `[\n${items.join(",\n")}\n${indent}]`;
  }
  const fields = presentFields(value);
  if (fields.length === 0) return "{}";
  const lines = fields.map(([key, item]) => {
    const label = `${JSON.stringify(key)}: `;
    return inner + label + block(item, inner, depth + 1, label.length);
  });
  return `{\n${lines.join(",\n")}\n${indent}}`;
}

/** The value on one line; null where that is longer than `room` characters, without going through the rest of it. */
function inline(value: unknown, room: number): string | null {
  if (!isNest(value)) return within(JSON.stringify(value), room);
  const isList = Array.isArray(value);
  const fields = isList ? value : presentFields(value);
  if (fields.length === 0) return within(isList ? "[]" : "{}", room);
  let line = isList ? "[" : "{ ";
  const close = isList ? "]" : " }";
  let joint = "";
  for (const field of fields) {
    line += isList ? joint : `${joint}${JSON.stringify(field[0])}: `;
    const item = inline(isList ? field : field[1], room - line.length - close.length);
    if (item === null) return null;
    line += item;
    joint = ", ";
  }
  return line + close;
}

const within = (text: string, room: number): string | null => (text.length <= room ? text : null);

function isNest(value: unknown): value is object {
  return typeof value === "object" && value !== null;
}

function presentFields(value: object): [string, unknown][] {
  return Object.entries(value).filter(([, item]) => item !== undefined);
}
