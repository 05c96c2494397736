import type { Solid } from "../geometry/solid.ts";
import type { SceneDocument } from "../scene/document.ts";
import { type MeshFile, type MeshReading, meshFilesOf, readingName } from "../scene/meshFiles.ts";
import type { Hand } from "./hand.ts";
import { unwrap } from "./outcome.ts";
import type { SceneFiles } from "./protocol.ts";

/** Meshes of earlier scenes that workers keep besides those of the newest. */
const KEPT_MESHES = 8;

/** A mesh file as a worker imports it: under this name it keeps the solid. */
export interface MeshOrder {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly mesh: MeshFile;
}

/** By the scene's file name: the name under which workers keep the mesh. */
export type MeshNames = ReadonlyMap<string, string>;

/**
 * Sees to it that workers have the meshes of a scene: a file's bytes cross to a worker once, not with every job, and where
 * memory is shared one worker imports them for all.
 */
export class MeshStore {
  private readonly hands: readonly (Hand | null)[];
  private readonly numbers = new WeakMap<Uint8Array, number>();
  private lastNumber = 0;
  /** Newest last. A solid in shared memory, or null where there is none and every worker imports for itself. */
  private readonly imports = new Map<string, Promise<Solid | null>>();

  constructor(hands: readonly (Hand | null)[]) {
    this.hands = hands;
  }

  /** Rejects with an InputError for a file that is no mesh. */
  async supply(hand: Hand, job: number, document: SceneDocument, files: SceneFiles): Promise<MeshNames> {
    const orders = meshFilesOf(document).flatMap((mesh): MeshOrder[] => {
      const bytes = files.get(mesh.file);
      return bytes ? [{ name: this.nameOf(bytes, mesh.file, mesh), bytes, mesh }] : [];
    });
    for (const { name } of orders) this.markUsed(name);
    await Promise.all(orders.map((order) => this.give(hand, job, order)));
    this.forget(orders.length + KEPT_MESHES);
    return new Map(orders.map(({ mesh, name }) => [mesh.file, name]));
  }

  /** A solid in shared memory that was made elsewhere, as one of the workers here would make it. */
  keep(bytes: Uint8Array, file: string, reading: MeshReading, solid: Solid): void {
    const name = this.nameOf(bytes, file, reading);
    if (!this.imports.has(name)) this.imports.set(name, Promise.resolve(solid));
  }

  private nameOf(bytes: Uint8Array, file: string, reading: MeshReading): string {
    return `${this.numberOf(bytes)} ${readingName(reading)} ${file}`;
  }

  private give(hand: Hand, job: number, order: MeshOrder): Promise<void> {
    const { name } = order;
    const given = hand.meshes.get(name) ?? this.bring(hand, job, order);
    hand.meshes.set(name, given);
    given.catch(() => hand.meshes.delete(name));
    return given;
  }

  private async bring(hand: Hand, job: number, order: MeshOrder): Promise<void> {
    const { name } = order;
    const known = this.imports.get(name);
    if (known) {
      const solid = await known;
      if (solid) await hand.ask(job, (shell) => shell.takeMesh(name, solid));
      else unwrap(await hand.ask(job, (shell) => shell.importMesh(order)));
      return;
    }
    const imported = hand.ask(job, (shell) => shell.importMesh(order)).then(unwrap);
    this.imports.set(name, imported);
    imported.catch(() => this.imports.delete(name));
    await imported;
  }

  private markUsed(name: string): void {
    const known = this.imports.get(name);
    if (!known) return;
    this.imports.delete(name);
    this.imports.set(name, known);
  }

  private forget(keep: number): void {
    for (const name of this.imports.keys()) {
      if (this.imports.size <= keep) return;
      this.imports.delete(name);
      for (const hand of this.hands) if (hand?.meshes.delete(name)) void hand.shell.dropMesh(name);
    }
  }

  private numberOf(bytes: Uint8Array): number {
    const number = this.numbers.get(bytes) ?? ++this.lastNumber;
    this.numbers.set(bytes, number);
    return number;
  }
}
