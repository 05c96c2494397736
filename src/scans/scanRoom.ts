import { readTriangles, weldRead } from "../geometry/importMesh.ts";
import { rayOnSolid } from "../geometry/rayOnSolid.ts";
import type { Solid } from "../geometry/solid.ts";
import type { Poll } from "../maths/poll.ts";
import { add, scale, type Vec3 } from "../maths/vec3.ts";
import type { LengthUnit } from "../scene/meshFiles.ts";
import type { MeshRepair, MeshThinning } from "../scene/scene.ts";
import { nearestTriangle } from "./nearestTriangle.ts";
import { type Neighbours, neighboursOf, type PickedPatch, pickPatch } from "./patch.ts";
import { type RepairsDone, repaired } from "./repair.ts";
import { type MeshReport, reportOf } from "./report.ts";
import { reduced, thinWithin } from "./thin.ts";
import { guessUnit, type UnitGuess } from "./unitGuess.ts";
import type { BareMesh } from "./weldNear.ts";

/** What is being done, in the order in which it comes. */
export type ScanStage = "reading" | "joining" | "looking" | "mending" | "drawing" | "thinning";

export interface ScanRead {
  readonly triangles: number;
  readonly guess: UnitGuess;
}

export interface ScanLook {
  /** Of the file as it is. */
  readonly report: MeshReport;
  /** What the repair came to. */
  readonly done: RepairsDone;
  readonly triangles: number;
  readonly isClosed: boolean;
  /** To be drawn: no more triangles than a picture needs. */
  readonly view: BareMesh;
}

export interface ScanThinned {
  readonly thinned: MeshThinning;
  readonly triangles: number;
}

/** Enough for a picture on a phone. */
const VIEW_TRIANGLES = 150_000;

export interface ScanWatch {
  /** `share`: how much of the stage is done, 0 to 1, where that is known. */
  onStage(stage: ScanStage, share?: number): void;
  /** Called now and then in long work; may throw to end it. */
  readonly poll?: Poll;
}

/** One mesh file while it is brought in: read once, then looked at, mended, picked on and thinned out as often as is asked. */
export class ScanRoom {
  readonly #watch: ScanWatch;
  #bytes: Uint8Array = new Uint8Array();
  #file = "";
  #read: { readonly unit: LengthUnit; readonly corners: Float32Array } | null = null;
  #mesh: { readonly unit: LengthUnit; readonly mesh: BareMesh; readonly report: MeshReport } | null = null;
  #solid: Solid | null = null;
  #thinned: { readonly thinned: MeshThinning; readonly solid: Solid } | null = null;
  #neighbours: Neighbours | null = null;

  constructor(watch: ScanWatch) {
    this.#watch = watch;
  }

  /** Throws InputError `mesh` for what cannot be read. */
  async read(bytes: Uint8Array, file: string): Promise<ScanRead> {
    this.#bytes = bytes;
    this.#file = file;
    const corners = await this.#corners("mm");
    const low = [Infinity, Infinity, Infinity];
    const high = [-Infinity, -Infinity, -Infinity];
    for (let i = 0; i < corners.length; i++) {
      const value = corners[i]!;
      if (value < low[i % 3]!) low[i % 3] = value;
      if (value > high[i % 3]!) high[i % 3] = value;
    }
    const longest = Math.max(0, ...high.map((most, k) => most - low[k]!));
    return { triangles: corners.length / 9, guess: guessUnit(longest, file) };
  }

  /** Reads the numbers in that unit, tells what is wrong with the mesh, and mends what is asked for. Throws InputError `mesh`. */
  async look(unit: LengthUnit, repair: MeshRepair | null): Promise<ScanLook> {
    const { mesh, report } = await this.#meshIn(unit);
    this.#stage("mending");
    const { solid, done } = repaired(mesh, repair);
    this.#solid = solid;
    this.#thinned = null;
    this.#neighbours = null;
    this.#stage("drawing");
    const view = await reduced(solid, VIEW_TRIANGLES);
    const isClosed = solid.shells.every(({ closed }) => closed);
    return { report, done, triangles: solid.indices.length / 3, isClosed, view };
  }

  /** null: there is nothing to thin out within that. */
  async thin(within_mm: number): Promise<ScanThinned | null> {
    this.#stage("thinning");
    const found = await thinWithin(this.#looked(), within_mm, this.#watch.poll);
    this.#thinned = found;
    return found && { thinned: found.thinned, triangles: found.solid.indices.length / 3 };
  }

  /** The mesh as readyMesh would make it of the same file, if it is here already; null: not thinned out like that. */
  ready(thinned: MeshThinning | null): Solid | null {
    if (thinned === null) return this.#looked();
    const last = this.#thinned;
    const isSame = last?.thinned.within_mm === thinned.within_mm && last.thinned.error_mm === thinned.error_mm;
    return isSame ? last.solid : null;
  }

  /** Where a line of sight first meets the scan, in its own axes. */
  hit(from: Vec3, way: Vec3): Vec3 | null {
    const far = rayOnSolid(this.#looked(), from, way);
    return Number.isFinite(far) ? add(from, scale(way, far)) : null;
  }

  /** The flat or round about a place on the scan; null where there is none. */
  patch(at: Vec3, kind: "plane" | "cylinder", reach_mm: number): Pick<PickedPatch, "fitted" | "points"> | null {
    const solid = this.#looked();
    this.#neighbours ??= neighboursOf(solid);
    const found = pickPatch(this.#neighbours, nearestTriangle(solid, at), at, kind, reach_mm);
    return found && { fitted: found.fitted, points: found.points };
  }

  async #meshIn(unit: LengthUnit): Promise<{ readonly mesh: BareMesh; readonly report: MeshReport }> {
    if (this.#mesh?.unit === unit) return this.#mesh;
    const corners = await this.#corners(unit);
    this.#stage("joining");
    const mesh = weldRead(corners, this.#file);
    this.#stage("looking");
    const report = reportOf(mesh, corners.length / 9);
    this.#mesh = { unit, mesh, report };
    return this.#mesh;
  }

  /** The last reading is kept: most files are read in the unit that was guessed first. */
  async #corners(unit: LengthUnit): Promise<Float32Array> {
    if (this.#read?.unit !== unit) {
      this.#stage("reading");
      const onShare = (share: number) => this.#stage("reading", share);
      this.#read = { unit, corners: await readTriangles(this.#bytes, this.#file, unit, onShare) };
    }
    return this.#read.corners;
  }

  #looked(): Solid {
    if (!this.#solid) throw new Error("the scan has not been looked at yet");
    return this.#solid;
  }

  #stage(stage: ScanStage, share?: number): void {
    this.#watch.onStage(stage, share);
    this.#watch.poll?.();
  }
}
