import { card } from "./card.ts";
import { cut } from "./cut.ts";
import { ghosts } from "./ghosts.ts";
import { shell } from "./shell.ts";
import { tools } from "./tools.ts";

/** One part a folder of the app that shows it; German stands beside it (../de). */
export const en = { card, cut, ghosts, shell, tools } as const;
