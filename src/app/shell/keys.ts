import { create } from "zustand";

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
    about: "Wheels and engine",
    keys: [
      { press: ["↑", "↓"], does: "bump, droop by 1 mm or 1/16 in; with Shift ten times that" },
      { press: ["Home"], does: "ride height" },
      { press: ["Page Up", "Page Down"], does: "full bump, full droop, once a rule has the focus" },
      { press: [",", "."], does: "engine pose before, after" },
    ],
  },
  {
    about: "Verdicts",
    keys: [
      { press: ["[", "]"], does: "clash before, next" },
      { press: ["S"], does: "make job card" },
    ],
  },
  {
    about: "View",
    keys: [
      { press: ["1", "2", "3", "4"], does: "look from behind, left, right, above" },
      { press: ["G"], does: "part in hand to glass and back" },
    ],
  },
  {
    about: "Tools",
    keys: [
      { press: ["M"], does: "measure" },
      { press: ["C"], does: "section" },
      { press: ["H"], does: "ghosts" },
      { press: ["E"], does: "envelope" },
      { press: ["Esc"], does: "take back the last place; or close the tool" },
    ],
  },
  {
    about: "Dragging the held point",
    keys: [
      { press: ["F", "O", "U"], does: "let it go forward, out, up, or not" },
      { press: ["Shift"], does: "finely: by 0.1 mm, held by nothing" },
      { press: ["←", "→"], does: "one step along the arm that has the focus; with Shift ten" },
    ],
  },
  {
    about: "Changes",
    keys: [
      { press: ["Enter"], does: "keep the move that is tried" },
      { press: ["Esc"], does: "put it back; or let the verdict go" },
      { press: ["Ctrl Z", "Ctrl Shift Z"], does: "undo, redo (on a Mac, ⌘)" },
      { press: ["Ctrl S"], does: "save the scene to its file" },
      { press: ["?"], does: "this list" },
    ],
  },
];
