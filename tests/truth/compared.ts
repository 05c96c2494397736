import { relative } from "node:path";
import { type Node, type SourceFile, SyntaxKind } from "typescript/unstable/ast";
import type { Checker, Symbol as Named, Type } from "typescript/unstable/sync";
import { eachNode, filesBelow, isCall, root, type StatedNumbers, textOf } from "./stated.ts";

/** A call of `agrees` and its like: for which rows of the register it may stand, and which stated numbers it compares. */
export interface Comparison {
  readonly quantities: readonly string[];
  readonly file: string;
  /** Of the call's name, from 1. */
  readonly line: number;
  readonly compares: ReadonlySet<string>;
}

const AGREES = /^agrees(Within|On|Each)?$/;
type Parts = Record<"name" | "expression" | "initializer" | "body" | "argumentExpression" | "propertyName", Node>;

/** Every comparison that stands in a test, wherever it stands. */
export function comparisons(stated: StatedNumbers): Comparison[] {
  const found: Comparison[] = [];
  for (const path of filesBelow("tests").filter((path) => /[.]test[.]tsx?$/.test(path))) {
    const file = stated.source(path);
    if (!file.text.includes("agrees")) continue;
    eachNode(file, (node) => {
      if (!isCall(node)) return;
      const { text: call = "" } = node.expression as Node & { text?: string };
      if (!AGREES.test(call)) return;
      const [id, got, wanted] = node.arguments;
      found.push({
        quantities: namesIn(stated.checker.getTypeAtLocation(id!)),
        file: relative(root, file.fileName),
        line: file.text.slice(0, node.expression.end).split("\n").length,
        compares: new Tracer(stated, file).of(call, got!, wanted!),
      });
    });
  }
  return found;
}

/** Follows what is compared to the properties that it was read from. */
class Tracer {
  readonly #stated: StatedNumbers;
  readonly #checker: Checker;
  readonly #file: SourceFile;
  readonly #found = new Set<string>();
  readonly #seen = new Set<Node>();

  constructor(stated: StatedNumbers, file: SourceFile) {
    this.#stated = stated;
    this.#checker = stated.checker;
    this.#file = file;
  }

  of(call: string, got: Node, wanted: Node): ReadonlySet<string> {
    if (call === "agreesEach") {
      const type = this.#checker.getTypeAtLocation(got);
      for (const { name } of this.#checker.getPropertiesOfType(this.#checker.getTypeAtLocation(wanted)!))
        this.#add(type && this.#checker.getPropertyOfType(type, name));
      if (got.kind === SyntaxKind.PropertyAccessExpression)
        this.#add(this.#checker.getSymbolAtLocation((got as Node & Parts).name));
      return this.#found;
    }
    this.#trace(got);
    if (call === "agreesOn") {
      for (const name of this.#stated.namesWithin(this.#checker.getTypeAtLocation(got))) this.#found.add(name);
    }
    return this.#found;
  }

  #trace(node: Node | undefined): void {
    if (!node || this.#seen.has(node)) return;
    this.#seen.add(node);
    const parts = node as Node & Parts;
    switch (node.kind) {
      case SyntaxKind.PropertyAccessExpression:
        // what it stands in was only the way to it
        if (!this.#add(this.#checker.getSymbolAtLocation(parts.name))) this.#trace(parts.expression);
        return;
      case SyntaxKind.ElementAccessExpression: {
        const type = this.#checker.getTypeAtLocation(parts.expression);
        const keys = namesIn(this.#checker.getTypeAtLocation(parts.argumentExpression));
        const added = keys.map((key) => this.#add(type && this.#checker.getPropertyOfType(type, key)));
        if (!added.includes(true)) this.#trace(parts.expression);
        this.#trace(parts.argumentExpression);
        return;
      }
      case SyntaxKind.CallExpression:
        if (parts.expression.kind === SyntaxKind.PropertyAccessExpression) {
          this.#trace((parts.expression as Node & Parts).expression);
        } else this.#trace(parts.expression);
        for (const each of (node as Node & { arguments: readonly Node[] }).arguments) {
          if ((parts.expression as Node & { text?: string }).text === "toldAt") this.#addWritten(each);
          this.#trace(each);
        }
        return;
      case SyntaxKind.Identifier:
        this.#follow(this.#checker.getSymbolAtLocation(node));
        return;
      default:
        node.forEachChild((child) => {
          this.#trace(child);
          return undefined;
        });
    }
  }

  /** A name of the test's own file: to what it was given. */
  #follow(symbol: Named | undefined): void {
    const handle = symbol?.valueDeclaration;
    if (!handle || handle.path !== this.#file.path) return;
    const declared = handle.resolve();
    if (!declared || this.#seen.has(declared)) return;
    this.#seen.add(declared);
    const parts = declared as Node & Parts;
    if (declared.kind === SyntaxKind.BindingElement) {
      const pattern = declared.parent!;
      const giver = pattern.parent!;
      const type = this.#checker.getTypeAtLocation(giver.kind === SyntaxKind.Parameter ? giver : pattern);
      if (pattern.kind === SyntaxKind.ObjectBindingPattern) {
        const name = textOf(parts.propertyName ?? parts.name, this.#file);
        this.#add(type && this.#checker.getPropertyOfType(type, name));
      } else this.#giver(giver);
      return;
    }
    if (declared.kind === SyntaxKind.FunctionDeclaration) this.#trace(parts.body);
    else if (declared.kind === SyntaxKind.VariableDeclaration) this.#giver(declared);
  }

  /** What a variable is made from: its initializer, or what its loop goes through. */
  #giver(declared: Node): void {
    const { initializer } = declared as Node & Parts;
    if (initializer) this.#trace(initializer);
    else if (declared.parent?.parent?.kind === SyntaxKind.ForOfStatement)
      this.#trace((declared.parent.parent as Node & Parts).expression);
  }

  /** What a verb writes is read back from its text by the number's own name (verbs.ts). */
  #addWritten(name: Node): void {
    for (const each of namesIn(this.#checker.getTypeAtLocation(name))) {
      if (this.#stated.all.has(each)) this.#found.add(each);
    }
  }

  #add(symbol: Named | undefined): boolean {
    const names = symbol ? this.#stated.namesOf(symbol) : [];
    for (const name of names) this.#found.add(name);
    return names.length > 0;
  }
}

/** Of a type that is a string, or one of several. */
function namesIn(type: Type | undefined): string[] {
  if (type?.isUnionType()) return (type.getTypes() ?? []).flatMap((each) => namesIn(each));
  const value = (type as { value?: unknown } | undefined)?.value;
  return typeof value === "string" ? [value] : [];
}
