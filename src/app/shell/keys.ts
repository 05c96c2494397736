import { create } from "zustand";
import { t } from "../text/text.ts";

/** Whether the list of keys is shown. */
export const useKeyList = create(() => ({ shown: false }));

export function showKeys(): void {
  useKeyList.setState({ shown: true });
}

/** What the keys do, for the list that the builder can ask for; useKeys and the rule's own keys do it. */
export const KEY_LIST: readonly {
  readonly about: string;
  readonly keys: readonly { readonly press: readonly string[]; readonly does: string }[];
}[] = [
  {
    about: t("shell.keys.wheels"),
    keys: [
      { press: ["↑", "↓"], does: t("shell.keys.travel") },
      { press: [t("shell.keys.press.home")], does: t("shell.keys.ride") },
      { press: [t("shell.keys.press.pageUp"), t("shell.keys.press.pageDown")], does: t("shell.keys.ends") },
      { press: [",", "."], does: t("shell.keys.poses") },
    ],
  },
  {
    about: t("shell.keys.verdicts"),
    keys: [
      { press: ["[", "]"], does: t("shell.keys.clashes") },
      { press: ["S"], does: t("shell.keys.card") },
    ],
  },
  {
    about: t("shell.keys.view"),
    keys: [
      { press: ["1", "2", "3", "4"], does: t("shell.keys.stands") },
      { press: ["G"], does: t("shell.keys.glass") },
    ],
  },
  {
    about: t("shell.keys.tools"),
    keys: [
      { press: ["M"], does: t("shell.keys.measure") },
      { press: ["C"], does: t("shell.keys.section") },
      { press: ["H"], does: t("shell.keys.ghosts") },
      { press: ["E"], does: t("shell.keys.envelope") },
      { press: ["R"], does: t("shell.keys.gear") },
      { press: ["L"], does: t("shell.keys.loads") },
      { press: ["T"], does: t("shell.keys.studies") },
      { press: [t("shell.keys.press.escape")], does: t("shell.keys.takeBack") },
    ],
  },
  {
    about: t("shell.keys.dragging"),
    keys: [
      { press: ["F", "O", "U"], does: t("shell.keys.free") },
      { press: [t("shell.keys.press.shift")], does: t("shell.keys.finely") },
      { press: ["←", "→"], does: t("shell.keys.arm") },
    ],
  },
  {
    about: t("shell.keys.changes"),
    keys: [
      { press: [t("shell.keys.press.enter")], does: t("shell.keys.keep") },
      { press: [t("shell.keys.press.escape")], does: t("shell.keys.putBack") },
      { press: [t("shell.keys.press.undo"), t("shell.keys.press.redo")], does: t("shell.keys.undo") },
      { press: [t("shell.keys.press.save")], does: t("shell.keys.save") },
      { press: ["?"], does: t("shell.keys.list") },
    ],
  },
];
