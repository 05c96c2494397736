import type { en } from "../en/index.ts";
import type { Translation } from "../translation.ts";

export const studies: Translation<typeof en.studies> = {
  name: "Studien",
  label: "Studie",
  names: {
    room: "Platz für einen Punkt",
  },
};
