import type { z } from "zod";
import { InputError } from "../scene/error.ts";
import { CARD_VERSION, type Card } from "./entry.ts";
import { cardSchema } from "./schema.ts";

/** The card in `value`, checked field by field. `file` and `path` say where it came from. @throws InputError */
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
  const read = cardSchema.safeParse(value);
  if (read.success) return read.data;
  const issue = read.error.issues[0] as z.core.$ZodIssue;
  throw new InputError("wrong-value", { file, path: pathOf(issue, path) }, issue.message, "a job card as it was saved");
}

function pathOf(issue: z.core.$ZodIssue, path: string): string {
  return issue.path.reduce<string>(
    (whole, key) => (typeof key === "number" ? `${whole}[${key}]` : `${whole}${whole ? "." : ""}${String(key)}`),
    path,
  );
}
