import type { Door } from "./door.ts";
import { MESH_DOORS } from "./doors/meshes.ts";

/** Every way by which something from outside comes into the program. */
export const DOORS: readonly Door[] = [...MESH_DOORS];
