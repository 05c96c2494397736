import type { Translation } from "../languages.ts";
import { card } from "./card.ts";
import { cut } from "./cut.ts";
import { ghosts } from "./ghosts.ts";
import { shell } from "./shell.ts";
import { tools } from "./tools.ts";

export const de: Translation = { card, cut, ghosts, shell, tools };
