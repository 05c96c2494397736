import { useStore } from "zustand";
import { app } from "../store/useApp.ts";
import { databaseDoor } from "./database.ts";
import { createDesk } from "./desk.ts";
import type { DeskState } from "./deskState.ts";
import { browserMark } from "./mark.ts";
import { askToKeep } from "./room.ts";
import { browserTabs } from "./tabs.ts";

export const door = databaseDoor();

export const desk = createDesk({
  store: app,
  door,
  tabs: browserTabs(),
  mark: browserMark(),
  onFirstEdit: () => void askToKeep(),
});

export function useDesk<T>(select: (state: DeskState) => T): T {
  return useStore(desk.state, select);
}
