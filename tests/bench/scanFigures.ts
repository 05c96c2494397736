import { execFile } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { writeScanCase } from "./scanCase.ts";

const RUN = fileURLToPath(new URL("./scanRun.ts", import.meta.url));
const TSX = import.meta.resolve("tsx");

export interface StageFigures {
  readonly name: string;
  readonly wall_ms: number;
  readonly processor_ms: number;
  /** Most memory of the process up to the end of the stage. */
  readonly peak_MB: number;
}

/** One pair of a scan and a part beside an independent measurement. */
export interface OracleFigures {
  readonly pair: string;
  readonly told_mm: number;
  /** Least distance found at points of the part at the told state; none is nearer, but for 0.02 mm. */
  readonly found_mm: number;
  /** How far the told points are from the scan. */
  readonly pointOffScan_mm: number;
  readonly pointToScan_mm: number;
  /** Least distance found at the ends of the travel. */
  readonly atEnds_mm: readonly number[];
}

/** What one check of the scans' scene took and found; times of the processor, not of the clock. */
export interface ScanFigures {
  readonly stages: readonly StageFigures[];
  readonly peak_MB: number;
  readonly firstFinding_ms: number;
  readonly longestWithoutProgress_ms: number;
  readonly longestWithoutProgress: string;
  readonly longestWithoutPoll_ms: number;
  readonly longestWithoutPoll: string;
  readonly bodies: number;
  readonly moving: number;
  readonly pairs: number;
  readonly told: number;
  readonly triangles: readonly number[];
  readonly summary: Readonly<Record<string, number>>;
  readonly intrusion: { readonly clearance_mm: number; readonly measure: string };
  readonly patches_mm2: readonly number[];
  readonly oracle: readonly OracleFigures[];
}

/** Checks two scans of about so many triangles each beside 300 parts, in a process of its own so that its memory can be told. */
export async function runScanCase(triangles: number, withOracle: boolean): Promise<ScanFigures> {
  const folder = mkdtempSync(join(tmpdir(), "scans-"));
  try {
    const scene = writeScanCase(folder, triangles);
    const options = ["--import", TSX, RUN, scene, ...(withOracle ? ["--oracle"] : [])];
    const { stdout } = await promisify(execFile)(process.execPath, options, { maxBuffer: 1e8 });
    return JSON.parse(stdout) as ScanFigures;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
