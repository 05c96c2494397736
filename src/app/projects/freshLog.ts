import { deleteDB, openDB } from "idb";
import { ON_DISK } from "./shelf.ts";

const NAME = "elbowroom-fresh-log";
/** Small enough to lie in the database's log and not in a file of its own, many enough to fill several logs of 4 MB. */
const PIECE_bytes = 50_000;
const PIECES = 250;

/**
 * A disk that was full may have left half a record in the log of the browser's database. Chromium goes on behind it, reads it as damage when it
 * starts the next time, and throws all projects away. Once there is room this fills the log until the browser begins another, and lets go of
 * what it filled it with. Rejects with the browser's own error where there is no room for it yet.
 */
export async function beginFreshLog(): Promise<void> {
  const database = await openDB(NAME, 1, { upgrade: (made) => void made.createObjectStore("pieces") });
  try {
    const tx = database.transaction("pieces", "readwrite", ON_DISK);
    const written: Promise<unknown>[] = [tx.done];
    for (let i = 0; i < PIECES; i++) {
      // the log is compressed: what is all alike would take no room
      const piece = crypto.getRandomValues(new Uint8Array(PIECE_bytes));
      written.push(tx.objectStore("pieces").put(piece, i));
    }
    await Promise.all(written);
  } finally {
    database.close();
    await deleteDB(NAME);
  }
}
