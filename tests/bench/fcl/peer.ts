import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { mkdirSync, statSync, writeFileSync } from "node:fs";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";
import type { PairSteps, SyntheticCorner } from "../syntheticCorner.ts";

const SOURCE = fileURLToPath(new URL("peer.cpp", import.meta.url));
const CACHE = fileURLToPath(new URL("../../../.cache/", import.meta.url));
const PROGRAM = `${CACHE}fcl-peer`;

export type FclMode = "cold" | "warm" | "seeded" | "trees" | "places" | "places-pairs";

export interface FclAnswer {
  readonly ms: number;
  /** The smallest distance of every pair (places: of every place); none for trees. */
  readonly least_mm: readonly number[];
}

export interface FclPeer {
  /** The modes for places are told how many of the pairs are of one place. */
  ask(mode: FclMode, cap_mm: number, pairsOfPlace?: number): Promise<FclAnswer>;
  stop(): void;
}

/** Builds the peer program if need be. Null when it stands; else why it does not. */
export function buildFcl(): string | null {
  mkdirSync(CACHE, { recursive: true });
  const builtAt = statSync(PROGRAM, { throwIfNoEntry: false })?.mtimeMs ?? 0;
  if (builtAt > statSync(SOURCE).mtimeMs) return null;
  const flags = ["-std=c++17", "-O3", "-DNDEBUG", "-I/usr/include/eigen3"];
  const { error, status, stderr } = spawnSync("c++", [...flags, SOURCE, "-o", PROGRAM, "-lfcl", "-lccd"], {
    encoding: "utf8",
  });
  if (error) return `no C++ compiler (${error.message})`;
  return status === 0 ? null : `it does not compile here: ${stderr.split("\n")[0]}`;
}

/** A running peer that holds the corner's bodies and steps. */
export function startFcl(corner: Pick<SyntheticCorner, "name" | "bodies">, steps: readonly PairSteps[]): FclPeer {
  const file = `${CACHE}fcl-${corner.name}.bin`;
  writeFileSync(file, packed(corner, steps));
  const child: ChildProcess = spawn(PROGRAM, [file], { stdio: ["pipe", "pipe", "inherit"] });
  const lines = createInterface({ input: child.stdout! })[Symbol.asyncIterator]();
  return {
    async ask(mode, cap_mm, pairsOfPlace = 0) {
      child.stdin!.write(`${mode} ${cap_mm === Infinity ? 0 : cap_mm} ${pairsOfPlace}\n`);
      const { value, done } = await lines.next();
      if (done) throw new Error("the FCL peer has ended early");
      const [ms, ...least_mm] = value.split(" ").map(Number);
      return { ms: ms!, least_mm };
    },
    stop() {
      child.stdin!.end();
    },
  };
}

/** Little-endian: bodies (counts, float32 points, uint32 triangles), then pairs (body, body, steps, 12 float64 a pose). */
function packed({ bodies }: Pick<SyntheticCorner, "bodies">, steps: readonly PairSteps[]): Buffer {
  const keys = [...bodies.keys()];
  const parts: Uint8Array[] = [];
  const put = (values: Uint32Array | Float32Array | Float64Array) =>
    parts.push(new Uint8Array(values.buffer, values.byteOffset, values.byteLength));
  put(Uint32Array.of(bodies.size));
  for (const { solid } of bodies.values()) {
    put(Uint32Array.of(solid.positions.length / 3, solid.indices.length / 3));
    put(solid.positions);
    put(solid.indices);
  }
  put(Uint32Array.of(steps.length));
  for (const { a, b, poses } of steps) {
    put(Uint32Array.of(keys.indexOf(a), keys.indexOf(b), poses.length));
    for (const pose of poses) put(pose);
  }
  return Buffer.concat(parts);
}
