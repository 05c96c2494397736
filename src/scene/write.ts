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
  const line = inline(value);
  const isNest = typeof value === "object" && value !== null;
  const always = depth === 0 || (depth === 1 && isNest && holdsNests(value));
  if (!isNest || (!always && indent.length + lead + line.length <= LINE_WIDTH)) return line;
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

function inline(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(inline).join(", ")}]`;
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  const fields = presentFields(value);
  if (fields.length === 0) return "{}";
  return `{ ${fields.map(([key, item]) => `${JSON.stringify(key)}: ${inline(item)}`).join(", ")} }`;
}

function holdsNests(value: object): boolean {
  return Object.values(value).some((item) => typeof item === "object" && item !== null);
}

function presentFields(value: object): [string, unknown][] {
  return Object.entries(value).filter(([, item]) => item !== undefined);
}
