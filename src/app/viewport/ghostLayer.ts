import { Mesh, type RawShaderMaterial, Scene } from "three";
import { placeCoil } from "../../check/coilLook.ts";
import type { Pose } from "../../maths/pose.ts";
import { type BodyLayer, type Part, toneNumber, writePose } from "./bodyLayer.ts";
import {
  type CoilMaterial,
  coilMaterial,
  heedCut,
  type PartMaterial,
  partMaterial,
  type SharedUniforms,
} from "./materials.ts";
import { GHOST_NUMBERS } from "./palette.ts";

/** Some parts as they stand at another state. */
export interface Ghost {
  /** Keys of the bodies that are drawn. */
  readonly keys: ReadonlySet<string>;
  /** By body key, car coordinates. */
  readonly poses: ReadonlyMap<string, Pose>;
}

/** The mark has three numbers for ghosts beside those of the groups. */
export const MOST_GHOSTS = GHOST_NUMBERS.length;

interface GhostPart {
  readonly part: Part;
  readonly mesh: Mesh<Part["mesh"]["geometry"], RawShaderMaterial>;
  readonly state: number;
}

/** The same parts at other states, drawn as outlines: they share the parts' geometry and have poses of their own. */
export class GhostLayer {
  readonly scene = new Scene();
  readonly #shared: SharedUniforms;
  #ghosts: readonly Ghost[] = [];
  #parts: readonly GhostPart[] = [];
  /** What the meshes were made for. */
  #madeFor: { readonly parts: readonly Part[]; readonly keys: readonly ReadonlySet<string>[] } | null = null;
  #isCut = false;

  constructor(shared: SharedUniforms) {
    this.#shared = shared;
    this.scene.matrixWorldAutoUpdate = false;
  }

  get isEmpty(): boolean {
    return this.#parts.length === 0;
  }

  setGhosts(ghosts: readonly Ghost[], bodies: BodyLayer): void {
    this.#ghosts = ghosts.slice(0, MOST_GHOSTS);
    this.follow(bodies);
  }

  setCut(isCut: boolean): void {
    this.#isCut = isCut;
    for (const { mesh } of this.#parts) heedCut(mesh.material, isCut);
  }

  /** Makes meshes anew where parts or what is shown of them changed; else moves them. */
  follow(bodies: BodyLayer): void {
    const keys = this.#ghosts.map((ghost) => ghost.keys);
    const made = this.#madeFor;
    const isSame =
      made?.parts === bodies.parts && made.keys.length === keys.length && keys.every((set, i) => set === made.keys[i]);
    if (!isSame) {
      this.#drop();
      this.#parts = this.#ghosts.flatMap((ghost, state) =>
        bodies.parts.flatMap((part) => (ghost.keys.has(part.body.key) ? [this.#make(part, state)] : [])),
      );
      this.#madeFor = { parts: bodies.parts, keys };
    }
    for (const { part, mesh, state } of this.#parts) {
      const { poses } = this.#ghosts[state]!;
      const world = mesh.matrixWorld.elements;
      const { coil, body } = part;
      const pose = poses.get(body.key);
      if (coil === null) {
        if (pose) writePose(pose, world);
        continue;
      }
      const [upper, lower] = [poses.get(coil.upper.key), poses.get(coil.lower.key)];
      if (upper && lower)
        (mesh.material as CoilMaterial).uniforms.uCoil.value[0] = placeCoil(coil, upper, lower, world);
    }
  }

  /** Parts whose group is off have no ghosts either. */
  show(isShown: (part: Part) => boolean): void {
    for (const { part, mesh } of this.#parts) mesh.visible = isShown(part);
  }

  dispose(): void {
    this.#ghosts = [];
    this.#drop();
  }

  #make(part: Part, state: number): GhostPart {
    const { body, coil } = part;
    const tone = toneNumber(body);
    const material: PartMaterial | CoilMaterial =
      coil === null
        ? partMaterial(this.#shared, tone, 1, true)
        : coilMaterial(this.#shared, tone, 1, [1, coil.radius_mm, coil.wire_mm / 2, coil.turns]);
    material.uniforms.uMark.value = part.number | (GHOST_NUMBERS[state]! << 12);
    heedCut(material, this.#isCut);
    const mesh = new Mesh(part.mesh.geometry, material as RawShaderMaterial);
    mesh.matrixAutoUpdate = false;
    mesh.frustumCulled = coil === null;
    this.scene.add(mesh);
    return { part, mesh, state };
  }

  /** Geometry is the parts' own. */
  #drop(): void {
    for (const { mesh } of this.#parts) mesh.material.dispose();
    this.scene.clear();
    this.#parts = [];
    this.#madeFor = null;
  }
}
