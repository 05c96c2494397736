import { cut } from "./cut.ts";
import { ghosts } from "./ghosts.ts";
import { shell } from "./shell.ts";
import { tools } from "./tools.ts";
import { words } from "./words.ts";

/** One part a folder of the app that shows it; German stands beside it (../de). */
export const en = { cut, ghosts, shell, tools, words } as const;
