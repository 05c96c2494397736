import type { Translation } from "../languages.ts";
import { cut } from "./cut.ts";
import { ghosts } from "./ghosts.ts";
import { shell } from "./shell.ts";
import { tools } from "./tools.ts";
import { words } from "./words.ts";

export const de: Translation = { cut, ghosts, shell, tools, words };
