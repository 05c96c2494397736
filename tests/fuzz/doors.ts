import type { Door } from "./door.ts";
import { LOG_DOORS } from "./doors/logs.ts";
import { MESH_DOORS } from "./doors/meshes.ts";
import { SCENE_DOORS } from "./doors/scenes.ts";
import { TABLE_DOORS } from "./doors/tables.ts";
import { TERMINAL_DOORS } from "./doors/terminal.ts";
import { TYPED_DOORS } from "./doors/typed.ts";

/** Every way by which something from outside comes into the program. */
export const DOORS: readonly Door[] = [
  ...SCENE_DOORS,
  ...MESH_DOORS,
  ...LOG_DOORS,
  ...TABLE_DOORS,
  ...TYPED_DOORS,
  ...TERMINAL_DOORS,
];
