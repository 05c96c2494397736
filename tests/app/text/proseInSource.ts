import { parseAst } from "vite";

interface Node {
  readonly type: string;
  readonly start: number;
  readonly [key: string]: unknown;
}

export interface Prose {
  readonly text: string;
  readonly line: number;
}

/** Attributes whose text a person reads or hears. */
const READ = new Set([
  "alt",
  "aria-description",
  "aria-label",
  "aria-roledescription",
  "aria-valuetext",
  "label",
  "placeholder",
  "title",
]);
/** Attributes and properties whose text only the machine reads. */
const CODE = new Set([
  "className",
  "d",
  "fill",
  "font",
  "href",
  "key",
  "sizes",
  "src",
  "style",
  "transform",
  "type",
  "viewBox",
]);
/** Calls whose text only the machine or a developer reads. */
const CALLS = new Set([
  "closest",
  "getContext",
  "getPropertyValue",
  "getSnapshot",
  // of performance
  "mark",
  "matches",
  "matchMedia",
  "querySelector",
  "querySelectorAll",
  "setProperty",
  "t",
]);
const KEYS = /^(Alt|Arrow\w+|Backspace|Control|Ctrl|Delete|End|Enter|Escape|Home|Meta|Page\w+|Shift|Space|Tab)$/;

/** The app's own name and its two halves, the same in every language. */
const OWN_NAME = /^(Elbowroom|Elbow|room)$/;

/** Texts in a source of TypeScript or TSX that look like words of the interface: they belong into the catalogue. */
export function proseIn(source: string, lang: "ts" | "tsx"): Prose[] {
  const found: Prose[] = [];
  const tell = (node: Node, text: string): void => {
    if (OWN_NAME.test(text.trim())) return;
    found.push({ text: text.trim(), line: source.slice(0, node.start).split("\n").length });
  };
  visit(parseAst(source, { lang }) as unknown as Node, null);
  return found;

  function visit(node: Node, attribute: string | null): void {
    switch (node.type) {
      case "ImportDeclaration":
      case "ExportAllDeclaration":
      case "ThrowStatement":
      case "TSLiteralType":
      case "TSTypeAliasDeclaration":
      case "TSInterfaceDeclaration":
      case "TSTypeAnnotation":
      case "TSAsExpression":
        if (node.type === "TSAsExpression") visit(node.expression as Node, attribute);
        return;
      case "NewExpression":
        if (/Error$/.test(nameOf(node.callee as Node))) return;
        break;
      case "CallExpression":
        if (CALLS.has(nameOf(node.callee as Node))) return;
        break;
      case "BinaryExpression":
        // compared, not shown
        if (/^[=!]==?$|^in$/.test(String(node.operator))) return;
        break;
      case "AssignmentExpression":
        // context.font = "…"
        if (CODE.has(nameOf(node.left as Node))) return;
        break;
      case "VariableDeclarator":
        // what something is kept under
        if (/(^|_)KEY$/.test(nameOf(node.id as Node))) return;
        break;
      case "SwitchCase":
        for (const each of node.consequent as Node[]) visit(each, attribute);
        return;
      case "MemberExpression":
        visit(node.object as Node, attribute);
        return;
      case "TaggedTemplateExpression":
        return;
      case "JSXAttribute": {
        const name = nameOf(node.name as Node);
        if (!CODE.has(name) && node.value) visit(node.value as Node, name);
        return;
      }
      case "Property": {
        const name = nameOf(node.key as Node);
        if (!CODE.has(name)) visit(node.value as Node, null);
        return;
      }
      case "JSXText":
        // the name of a sign ("&nbsp;") is none that is read
        if (/[A-Za-z]{2}/.test(String(node.value).replace(/&#?\w+;/g, ""))) tell(node, String(node.value));
        return;
      case "Literal":
        if (typeof node.value === "string" && isProse(node.value, attribute)) tell(node, node.value);
        return;
      case "TemplateElement": {
        const text = String((node.value as { cooked: string }).cooked);
        if (isProse(text, attribute)) tell(node, text);
        return;
      }
    }
    for (const [key, value] of Object.entries(node)) {
      if (key === "type") continue;
      for (const child of Array.isArray(value) ? value : [value]) {
        if (child && typeof child === "object" && "type" in child) visit(child as Node, attribute);
      }
    }
  }
}

/** The same in every language. */
const UNIT_SYMBOL = /^(mm|cm|m|in|kg|kB|MB|GB)$/;

function isProse(text: string, attribute: string | null): boolean {
  const bare = text.trim();
  if (UNIT_SYMBOL.test(bare)) return false;
  if (attribute !== null && READ.has(attribute)) return /[A-Za-z]{2}/.test(bare);
  if (KEYS.test(bare)) return false;
  return (
    /[a-z]{2,},? [a-z]/i.test(bare) || /^[A-Z][a-z]+[.…:]?$/.test(bare) || (/ /.test(text) && /^[a-z]{2,}$/.test(bare))
  );
}

function nameOf(node: Node): string {
  switch (node.type) {
    case "Identifier":
    case "JSXIdentifier":
      return String(node.name);
    case "MemberExpression":
      return nameOf(node.property as Node);
    case "Literal":
      return String(node.value);
    default:
      return "";
  }
}
