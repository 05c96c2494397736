import type { en } from "../en/index.ts";
import type { Translation } from "../languages.ts";

export const shell: Translation<typeof en.shell> = {
  language: "Sprache",
  chosen: "gewählt",
  leave: "So lassen",
};
