import { type IDBPDatabase, openDB } from "idb";
import type { ProjectSchema } from "./records.ts";

export type Database = IDBPDatabase<ProjectSchema>;

const NAME = "elbowroom-projects";
const VERSION = 1;

/**
 * A way to the browser's database that opens it when it is first wanted, and again after the browser has closed it
 * (its data thrown away by hand or for want of room). Rejects with the browser's own error.
 */
export function databaseDoor(name = NAME): () => Promise<Database> {
  let open: Promise<Database> | null = null;
  const forget = (): void => {
    open = null;
  };
  return () => {
    open ??= openDB<ProjectSchema>(name, VERSION, {
      upgrade(database) {
        database.createObjectStore("projects", { keyPath: "id" });
        database.createObjectStore("steps", { keyPath: ["project", "index"] });
        database.createObjectStore("meshes");
        database.createObjectStore("settings");
      },
      // a newer version of the app in another tab, or somebody deleting the data, must not wait for this tab
      blocking(_current, _blocked, event) {
        (event.target as IDBDatabase).close();
        forget();
      },
      terminated: forget,
    });
    open.catch(forget);
    return open;
  };
}
