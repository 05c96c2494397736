import type { en } from "../en/index.ts";
import type { Translation } from "../translation.ts";

export const store: Translation<typeof en.store> = {
  steps: {
    open: "{{title}} öffnen",
    leaveOut: "{{a}}, {{b}} ausnehmen",
    count: "{{a}}, {{b}} wieder zählen",
  },
};
