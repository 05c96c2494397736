import type { AppState } from "../store/state.ts";
import { t } from "../text/text.ts";

/**
 * Why what is shown cannot be worked out, in one or two sentences. Parts that keep their lengths and jam on the way are
 * told as the builder meets them. "" when nothing is wrong.
 */
export function refusalText({ error, document, tried }: Pick<AppState, "error" | "document" | "tried">): string {
  if (!error) return "";
  const reached = error.code === "out-of-reach" ? /(\d+) %/.exec(error.wrong)?.[1] : undefined;
  if (reached === undefined) return t("words.refusal", { wrong: sentence(error.wrong), wanted: error.wanted });
  // the solver goes from where every mount is drawn; only a first bolt-up is the whole of that way
  const isFirst = tried !== null && Object.keys(document?.boltedUp ?? {}).length === 0;
  return t(`words.jams.${isFirst ? "move" : "way"}`, { percent: reached });
}

function sentence(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}
