import { PAPERS, type Paper } from "../fabrication/paper/sizes.ts";
import { InputError } from "../scene/error.ts";
import type { OptionName, VerbOptions } from "./verb.ts";

/** What was chosen of what an option knows, in capitals or not. Throws InputError "wrong-value" for anything else. */
export function choiceOf<T extends string>(
  option: OptionName,
  text: string | undefined,
  known: readonly T[],
  usual: T,
): T {
  if (text === undefined) return usual;
  const found = known.find((each) => each === text.toLowerCase());
  if (found !== undefined) return found;
  const wanted = known.length > 2 ? `one of ${known.join(", ")}` : known.join(" or ");
  throw new InputError("wrong-value", { path: `--${option}` }, `"${text}" is not known`, wanted);
}

/** Throws InputError "wrong-value" for a paper that sheets are not made for. */
export const paperOf = ({ paper }: VerbOptions): Paper => choiceOf("paper", paper, PAPERS, "a4");

/** Throws InputError "wrong-value" for a unit that nothing is told in. */
export const unitOf = ({ units }: VerbOptions): "mm" | "in" => choiceOf("units", units, ["mm", "in"] as const, "mm");
