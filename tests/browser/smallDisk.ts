import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import { closeSync, mkdtempSync, openSync, rmSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const SIZE_MB = 256;
const PIECE = Buffer.alloc(1 << 20);

/** A disk of its own that can be filled to the last byte: a tmpfs that only what is started through it sees at this place. */
export interface SmallDisk {
  /** Where it lies for a program that is started with `through` before it. */
  readonly folder: string;
  readonly through: readonly string[];
  /** Leaves no byte free. */
  fill(): void;
  /** Takes away what filled it. */
  makeRoom(): void;
  remove(): Promise<void>;
}

/** Linux, where the system lets a user mount in a namespace of its own; elsewhere there is no such disk to be had. */
export function hasSmallDisk(): boolean {
  return spawnSync("unshare", ["-rm", "mount", "-t", "tmpfs", "tmpfs", tmpdir()]).status === 0;
}

export async function makeSmallDisk(): Promise<SmallDisk> {
  const folder = mkdtempSync(join(tmpdir(), "elbowroom-disk-"));
  const script = `mount -t tmpfs -o size=${SIZE_MB}m tmpfs "$1" && echo ready && exec sleep infinity`;
  const holder: ChildProcess = spawn("unshare", ["-rm", "sh", "-c", script, "sh", folder], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  await once(holder.stdout!, "data");
  const seen = join(`/proc/${holder.pid}/root`, folder);
  const filler = join(seen, "filler");
  return {
    folder,
    through: ["nsenter", "--target", `${holder.pid}`, "--user", "--mount", "--preserve-credentials", "--"],
    fill() {
      const file = openSync(filler, "a");
      for (let size = PIECE.length; size >= 1; ) {
        try {
          if (writeSync(file, PIECE, 0, size) < size) size >>= 1;
        } catch (error) {
          if ((error as NodeJS.ErrnoException).code !== "ENOSPC") throw error;
          size >>= 1;
        }
      }
      closeSync(file);
    },
    makeRoom: () => rmSync(filler),
    async remove() {
      // the mount goes with the last program that sees it
      const ended = once(holder, "exit");
      holder.kill("SIGKILL");
      await ended;
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
