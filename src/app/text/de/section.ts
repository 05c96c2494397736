import type { en } from "../en/index.ts";
import type { Translation } from "../translation.ts";

export const section: Translation<typeof en.section> = {
  label: "{{a}} und {{b}}, geschnitten, wo sie am nächsten sind",
};
