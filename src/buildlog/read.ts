import { InputError } from "../scene/error.ts";
import { jsonPath } from "../scene/path.ts";
import { validateDocument } from "../scene/read.ts";
import { CARD_VERSION, type Card } from "./entry.ts";
import { inOrderOf, plain } from "./plain.ts";
import { cardSchema } from "./schema.ts";
import { tellIssue } from "./tellIssue.ts";

/**
 * The card in `value`, checked field by field, its scene brought to the present version. `file` and `path` say where it
 * came from. @throws InputError
 */
export function readCard(value: unknown, file = "build log", path = ""): Card {
  const version = typeof value === "object" && value !== null ? Reflect.get(value, "version") : undefined;
  if (typeof version === "number" && version > CARD_VERSION) {
    throw new InputError(
      "wrong-version",
      { file, path },
      `this card was made by a newer Elbowroom (card version ${version})`,
      `card version ${CARD_VERSION}`,
    );
  }
  const given = plain(version === 1 ? fromVersion1(value as object) : value);
  const read = cardSchema.safeParse(given);
  if (!read.success) {
    const issue = read.error.issues[0];
    const where = below(path, jsonPath(issue?.path ?? []));
    throw new InputError("wrong-value", { file, path: where }, tellIssue(issue), "a card as it was saved");
  }
  // what was checked itself, whose records keep the order of their keys: a log that is read and written again is the same file
  const card = given as Card;
  return { ...card, document: readDocument(card.document, file, below(path, "document")) };
}

/** Version 1 had one picture, no revision, and no photos. */
function fromVersion1(card: object): object {
  return { ...card, version: 2, revision: "", views: [], photos: [] };
}

function readDocument(document: unknown, file: string, path: string): Card["document"] {
  try {
    return inOrderOf(validateDocument(document, file), document);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    throw new InputError(error.code, { file, path: below(path, error.path) }, error.wrong, error.wanted);
  }
}

function below(path: string, child: string): string {
  if (path === "" || child === "") return path + child;
  return child.startsWith("[") ? path + child : `${path}.${child}`;
}
