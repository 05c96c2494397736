import type { en } from "../en/index.ts";
import type { Translation } from "../translation.ts";

export const ghosts: Translation<typeof en.ghosts> = {
  ends: "Räder auch",
  bump: "voll eingefedert",
  droop: "voll ausgefedert",
  pose: "Motor auch",
  none: "wie gezeigt",
  note: "Umrisse der bewegten Teile, wo sie dann wären. Die Teile selbst bleiben, wo sie gezeigt werden.",
};
