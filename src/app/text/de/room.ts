import type { en } from "../en/index.ts";
import type { Translation } from "../translation.ts";

export const room: Translation<typeof en.room> = {
  caution: "Nur Geometrie, starre Teile: von Hand nachprüfen, Feder ausgebaut, auf Stützböcken.",
};
