import { readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { type Node, type SourceFile, SyntaxKind } from "typescript/unstable/ast";
import {
  API,
  type Checker,
  type Symbol as Named,
  type NodeHandle,
  type Program,
  SignatureKind,
  type Type,
  TypeFlags,
} from "typescript/unstable/sync";

export const root = fileURLToPath(new URL("../..", import.meta.url));

/** What hands results over is not itself a result. */
const BOXES = /^(Array|ReadonlyArray|Map|ReadonlyMap|Set|ReadonlySet|Promise|Job)$/;
/** Buffers of what is drawn or of files; the numbers in them are told nowhere. */
const BUFFERS =
  /^(Float32Array|Float64Array|Uint8Array|Uint16Array|Uint32Array|Int32Array|ArrayBuffer|SharedArrayBuffer)$/;

/**
 * Every number that the program states, as the types of its own source have it, by the type that declares it ("CurvePoint.toe_deg"),
 * with one way by which it is reached. Looked through: what each verb writes as JSON, what workers answer to the page
 * (`work/protocol.ts`, `scans/scanRoom.ts`), what curves are read from (`app/curves/curveKinds.ts`), and what the page works out
 * itself (functions of the core that `app` calls; of these only names that carry a unit). Limits and checks of strength by their names.
 */
export function withStated<T>(use: (stated: StatedNumbers) => T): T {
  const api = new API({ cwd: root });
  try {
    const snapshot = api.updateSnapshot({ openProject: join(root, "tsconfig.json") });
    const [project] = snapshot.getProjects();
    if (!project) throw new Error("the compiler opens no project");
    return use(new StatedNumbers(project.checker, project.program));
  } finally {
    api.close();
  }
}

/** What `withStated` hands over; its names are asked for while the compiler runs. */
export class StatedNumbers {
  readonly checker: Checker;
  readonly #program: Program;
  readonly #found = new Map<string, string>();
  /** By the place of the declaration, since one property has many symbols. */
  readonly #names = new Map<string, string>();
  readonly #owners = new Map<Named, string>();

  constructor(checker: Checker, program: Program) {
    this.checker = checker;
    this.#program = program;
    this.#documentsOfVerbs();
    this.#answersOfWorkers();
    this.#curves();
    this.#ofThePage();
    this.#named();
  }

  /** Every one, with one way by which it is reached. */
  get all(): ReadonlyMap<string, string> {
    return this.#found;
  }

  /** What a property of some type is called here, if it states a number; of one of several types, by each of these. */
  namesOf(property: Named): readonly string[] {
    return (property.declarations ?? []).flatMap((declared) => this.#names.get(placeOf(declared)) ?? []);
  }

  /** All that a value of a type holds. */
  namesWithin(type: Type | undefined): readonly string[] {
    const names = new Set<string>();
    this.#walk(
      type,
      "",
      () => false,
      (property) => {
        for (const name of this.namesOf(property)) names.add(name);
      },
    );
    return [...names];
  }

  source(path: string): SourceFile {
    const file = this.#program.getSourceFile(join(root, path));
    if (!file) throw new Error(`${path} is not in the project`);
    return file;
  }

  #documentsOfVerbs(): void {
    for (const name of readdirSync(join(root, "src/cli")).sort()) {
      if (!name.endsWith(".ts")) continue;
      const file = this.source(`src/cli/${name}`);
      eachNode(file, (node) => {
        if (!isCall(node) || textOf(node.expression, file) !== "JSON.stringify") return;
        this.#walk(this.checker.getTypeAtLocation(node.arguments[0]!), name.replace(".ts", ""), () => true);
      });
    }
  }

  #answersOfWorkers(): void {
    for (const path of ["src/work/protocol.ts", "src/scans/scanRoom.ts"]) {
      eachNode(this.source(path), (node) => {
        if (node.kind !== SyntaxKind.MethodSignature && node.kind !== SyntaxKind.MethodDeclaration) return;
        const signature = this.checker.getSignatureFromDeclaration(node);
        const answer = signature && this.checker.getReturnTypeOfSignature(signature);
        this.#walk(answer, `${path.replace(/.*[/]|[.]ts$/g, "")}.${nameOf(node)}`, () => true);
      });
    }
  }

  #curves(): void {
    eachNode(this.source("src/app/curves/curveKinds.ts"), (node) => {
      if (node.kind !== SyntaxKind.MethodSignature || nameOf(node) !== "read") return;
      const signature = this.checker.getSignatureFromDeclaration(node);
      if (signature) this.#walk(this.checker.getParameterType(signature, 0), "curveKinds", () => true);
    });
  }

  #ofThePage(): void {
    const core =
      /[.][.][/]((kinematics|check|studies|loads|fabrication|scans|geometry|clearance|buildlog)[/]|scene[/](tape|measured|datum)[.])/;
    const told = (name: string) => UNIT.test(name);
    const asked = new Set<string>();
    for (const path of filesBelow("src/app")) {
      const file = this.source(path);
      eachNode(file, (node) => {
        if (node.kind !== SyntaxKind.ImportDeclaration) return;
        const { moduleSpecifier, importClause } = node as Node & { moduleSpecifier: Node; importClause?: Node };
        if (!importClause || !core.test(textOf(moduleSpecifier, file))) return;
        eachNode(importClause, (each) => {
          if (each.kind !== SyntaxKind.ImportSpecifier) return;
          const type = this.checker.getTypeAtLocation(each);
          for (const signature of type?.isObjectType()
            ? this.checker.getSignaturesOfType(type, SignatureKind.Call)
            : []) {
            const key = `${textOf(moduleSpecifier, file)} ${nameOf(each)}`;
            if (asked.has(key)) continue;
            asked.add(key);
            this.#walk(this.checker.getReturnTypeOfSignature(signature), `${nameOf(each)}()`, told);
          }
        });
      });
    }
  }

  /** What has one field of a result and many meanings: each name of these types is a quantity. */
  #named(): void {
    for (const [path, type, prefix] of [
      ["src/check/result.ts", "LimitName", "limit"],
      ["src/loads/screen/finding.ts", "CheckName", "screening"],
    ] as const) {
      const file = this.source(path);
      eachNode(file, (node) => {
        if (node.kind !== SyntaxKind.TypeAliasDeclaration || nameOf(node) !== type) return;
        eachNode(node, (each) => {
          if (each.kind !== SyntaxKind.StringLiteral) return;
          this.#found.set(`${prefix} ${textOf(each, file).slice(1, -1)}`, path);
        });
      });
    }
  }

  /** Every number in a type, but for what buffers and functions hold. */
  #walk(
    type: Type | undefined,
    way: string,
    isTold: (name: string) => boolean,
    meet: (property: Named) => void = () => undefined,
  ): void {
    const seen = new Set<Type>();
    const step = (type: Type | undefined, name: string, way: string, property?: Named): void => {
      if (!type) return;
      if (type.flags & TypeFlags.NumberLike) {
        if (property) meet(property);
        if (!property || !isTold(name.split(".").at(-1)!)) return;
        if (!this.#found.has(name)) this.#found.set(name, way);
        for (const declared of property.declarations ?? []) this.#names.set(placeOf(declared), name);
        return;
      }
      if (type.isUnionType() || type.isIntersectionType()) {
        for (const each of type.getTypes() ?? []) step(each, name, way, property);
        return;
      }
      if (!type.isObjectType()) return;
      const own = type.getSymbol()?.name ?? "";
      if (BUFFERS.test(own)) return;
      if (this.checker.isTupleType(type) || this.checker.isArrayType(type) || BOXES.test(own)) {
        for (const each of this.checker.getTypeArguments(type as never)) step(each, name, way, property);
        if (own !== "Job") return;
      }
      if (seen.has(type) || this.#isGiven(type)) return;
      seen.add(type);
      if (this.checker.getSignaturesOfType(type, SignatureKind.Call).length > 0) return;
      for (const { valueType } of this.checker.getIndexInfosOfType(type)) step(valueType, name, way, property);
      for (const property of this.checker.getPropertiesOfType(type)) {
        // private to its class
        if (property.name.startsWith("__#")) continue;
        step(
          this.checker.getTypeOfSymbol(property),
          this.#declared(property, way),
          `${way}.${property.name}`,
          property,
        );
      }
    };
    step(type, "", way);
  }

  /** A scene, or one of its records. */
  #isGiven(type: Type): boolean {
    if (GIVEN.test(type.getSymbol()?.declarations?.[0]?.path ?? "")) return true;
    return ["format", "members", "travel"].every((name) => this.checker.getPropertyOfType(type, name));
  }

  /** "Walk.stop.needs_mm": by the named type in which it is declared, or by the way to it where that has no name. */
  #declared(property: Named, way: string): string {
    const known = this.#owners.get(property);
    if (known) return known;
    const names = [property.name];
    let node = property.declarations?.[0]?.resolve()?.parent as Node | undefined;
    while (node && !OWNERS.has(node.kind)) {
      if (node.kind === SyntaxKind.PropertySignature) names.unshift(nameOf(node));
      node = node.parent as Node | undefined;
    }
    const name =
      node && node.kind !== SyntaxKind.SourceFile ? `${nameOf(node)}.${names.join(".")}` : `${way}.${property.name}`;
    this.#owners.set(property, name);
    return name;
  }
}

/** A name that carries a unit. */
const UNIT = /_(mm|mm2|deg|N|Nmm|Nm|kg|Hz|percent|MPa|px|N_per_mm|deg_per_mm|per_mm)$/;

/** Where the scene's own records are declared: what a person wrote, which is no result. */
const GIVEN = /[/]src[/]scene[/](scene|document|\w+document)[.]ts$/i;

const OWNERS = new Set([SyntaxKind.InterfaceDeclaration, SyntaxKind.TypeAliasDeclaration, SyntaxKind.SourceFile]);

export function filesBelow(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => /[.]tsx?$/.test(name))
    .sort()
    .map((name) => `${folder}/${name}`);
}

export function eachNode(node: Node, see: (node: Node) => void): void {
  see(node);
  node.forEachChild((child) => {
    eachNode(child, see);
    return undefined;
  });
}

export function isCall(node: Node): node is Node & { expression: Node; arguments: readonly Node[] } {
  return node.kind === SyntaxKind.CallExpression;
}

export function textOf(node: Node, file: SourceFile): string {
  return file.text.slice(node.pos, node.end).trim();
}

function nameOf(node: Node): string {
  return (node as Node & { name?: { text?: string } }).name?.text ?? "";
}

function placeOf({ path, index }: NodeHandle): string {
  return `${path}#${index}`;
}
