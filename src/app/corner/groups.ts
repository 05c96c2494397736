import type { ModelBody, PartGroup } from "../../check/model.ts";
import type { PairVerdict } from "../../check/result.ts";
import type { SessionState } from "../store/state.ts";
import { listText, withinText } from "../text/formats.ts";
import { t } from "../text/text.ts";

/** What parts ride on, as the view's chips name it. */
export const GROUPS: readonly { readonly group: PartGroup; readonly name: string }[] = (
  ["chassis", "powertrain", "hub", "arms"] as const
).map((group) => ({ group, name: t(`corner.groups.${group}`) }));

/** Names of the groups that are off in the view though a part of the pair rides on them. */
export function hiddenGroups(pair: PairVerdict, bodies: readonly ModelBody[], show: SessionState["show"]): string[] {
  const ridden = new Set(bodies.filter(({ key }) => pair.keys.includes(key)).map(({ group }) => group));
  return GROUPS.filter(({ group }) => show[group] === "off" && ridden.has(group)).map(({ name }) => name);
}

/** "powertrain is off in the view"; null: nothing of the pair is hidden. */
export function hiddenText(names: readonly string[]): string | null {
  if (names.length === 0) return null;
  return t("corner.hidden", { count: names.length, groups: listText(names.map(withinText)) });
}
