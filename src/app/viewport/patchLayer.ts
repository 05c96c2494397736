import {
  BufferAttribute,
  BufferGeometry,
  type Camera,
  InstancedBufferAttribute,
  InstancedBufferGeometry,
  Mesh,
  Scene,
  Vector3,
} from "three";
import type { DrawnPatch } from "../../work/drawn.ts";
import { type BodyLayer, MOST_BODIES, type Part, writePose } from "./bodyLayer.ts";
import { MaterialPool } from "./materialPool.ts";
import {
  type CurveMaterial,
  curveMaterial,
  heedCut,
  type PatchMaterial,
  patchMaterial,
  type SharedUniforms,
} from "./materials.ts";

/** Patches come in pairs: the two of one touch follow each other in the list. */
export interface ShownPatch {
  /** Body on whose surface it lies. */
  readonly key: string;
  readonly patch: DrawnPatch;
  readonly required_mm: number;
}

interface PatchPart {
  readonly shown: ShownPatch;
  readonly mesh: Mesh<BufferGeometry, PatchMaterial>;
  readonly anchor: Vector3;
  readonly buried: boolean;
  part: Part | undefined;
}

/** Shows through every body that has a patch. */
const ANY = MOST_BODIES + 1;
export const MOST_PATCHED = 16;
/** Colours are told by the share of the required clearance, which may be nothing. */
const LEAST_REQUIRED_mm = 1e-3;

/** Contact patches, which ride on their bodies, and the curves where surfaces cross. */
export class PatchLayer {
  readonly scene = new Scene();
  /** Numbers of the bodies that patches lie on, MOST_PATCHED at the most. */
  patched: readonly number[] = [];
  readonly #shared: SharedUniforms;
  readonly #materials: MaterialPool<PatchMaterial>;
  readonly #curve: CurveMaterial;
  #patches: readonly PatchPart[] = [];
  #isCut = false;
  #curves: Mesh<InstancedBufferGeometry, CurveMaterial> | null = null;

  constructor(shared: SharedUniforms) {
    this.#shared = shared;
    this.#materials = new MaterialPool(() => patchMaterial(shared));
    this.#curve = curveMaterial(shared);
    this.scene.matrixWorldAutoUpdate = false;
  }

  get hasBuried(): boolean {
    return this.#curves !== null || this.#patches.some((patch) => patch.buried);
  }

  setPatches(patches: readonly ShownPatch[]): void {
    const before = new Map(this.#patches.map((patch) => [patch.shown.patch, patch]));
    this.#patches = patches.map((shown) => {
      const kept = before.get(shown.patch);
      if (kept !== undefined && kept.shown.key === shown.key && kept.shown.required_mm === shown.required_mm) {
        before.delete(shown.patch);
        return kept;
      }
      return this.#make(shown);
    });
    for (const gone of before.values()) this.#drop(gone.mesh);
  }

  setCrossing(crossing: readonly Float32Array[]): void {
    if (this.#curves !== null) {
      this.scene.remove(this.#curves);
      this.#curves.geometry.dispose();
    }
    this.#curves = null;
    const geometry = ribbons(crossing);
    if (geometry === null) return;
    this.#curves = new Mesh(geometry, this.#curve);
    this.#curves.frustumCulled = false;
    this.#curves.matrixAutoUpdate = false;
    this.#curves.renderOrder = 1;
    this.scene.add(this.#curves);
  }

  /** Whether patches and curves heed the cut. */
  setCut(isCut: boolean): void {
    this.#isCut = isCut;
    heedCut(this.#curve, isCut);
    for (const { mesh } of this.#patches) heedCut(mesh.material, isCut);
  }

  /** Puts patches on their bodies and tells their materials what covers them. */
  follow(bodies: BodyLayer): void {
    for (const patch of this.#patches) patch.part = bodies.part(patch.shown.key);
    const numbers = this.#patches.map(({ part }) => part?.number ?? 0);
    this.patched = [...new Set(numbers)].slice(0, MOST_PATCHED);
    for (const [i, { shown, part, mesh }] of this.#patches.entries()) {
      if (part === undefined) continue;
      writePose(bodies.poseOf(shown.key), mesh.matrixWorld.elements);
      mesh.material.uniforms.uThrough.value = numbers[i % 2 === 0 ? i + 1 : i - 1] || ANY;
    }
  }

  /** `buried`: only what lies inside the other body, marked with the body that covers it. */
  prepare(camera: Camera, buried: boolean, style: (part: Part) => string): void {
    const { uSize, uPixel } = this.#shared;
    const at = new Vector3();
    for (const { part, mesh, anchor, buried: has } of this.#patches) {
      mesh.visible = part !== undefined && style(part) !== "off" && (!buried || has);
      const { uBuried, uMark, uAnchor } = mesh.material.uniforms;
      uBuried.value = buried ? 1 : 0;
      if (part !== undefined) uMark.value = (part.mesh.material.uniforms.uMark as { value: number }).value;
      // the pattern moves with the part instead of swimming over it
      at.copy(anchor).applyMatrix4(mesh.matrixWorld).project(camera);
      uAnchor.value.set((at.x * 0.5 + 0.5) * uSize.value.x, (at.y * 0.5 + 0.5) * uSize.value.y);
    }
    if (this.#curves !== null) {
      const { uMark, uWidth } = this.#curve.uniforms;
      const first = this.#patches[0]?.part;
      uWidth.value = 2 * uPixel.value;
      uMark.value =
        buried || first === undefined ? ANY : (first.mesh.material.uniforms.uMark as { value: number }).value;
    }
  }

  dispose(): void {
    this.setPatches([]);
    this.setCrossing([]);
    this.#curve.dispose();
    this.#materials.dispose();
  }

  #make(shown: ShownPatch): PatchPart {
    const { positions, normals, indices, clearance_mm } = shown.patch;
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", new BufferAttribute(positions, 3));
    geometry.setAttribute("normal", new BufferAttribute(normals, 3));
    geometry.setAttribute("clearance", new BufferAttribute(clearance_mm, 1));
    geometry.setIndex(new BufferAttribute(indices, 1));
    geometry.computeBoundingSphere();
    const material = this.#materials.take();
    material.uniforms.uRequired_mm.value = Math.max(shown.required_mm, LEAST_REQUIRED_mm);
    const mesh = new Mesh(geometry, material);
    mesh.matrixAutoUpdate = false;
    mesh.frustumCulled = false;
    heedCut(mesh.material, this.#isCut);
    this.scene.add(mesh);
    const anchor = geometry.boundingSphere?.center.clone() ?? new Vector3();
    return { shown, mesh, anchor, buried: clearance_mm.some((c) => c < 0), part: undefined };
  }

  #drop(mesh: Mesh<BufferGeometry, PatchMaterial>): void {
    this.scene.remove(mesh);
    mesh.geometry.dispose();
    this.#materials.giveBack(mesh.material);
  }
}

/** Instances of a unit ribbon, one a segment; null without segments. */
function ribbons(polylines: readonly Float32Array[]): InstancedBufferGeometry | null {
  const segments = polylines.reduce((sum, line) => sum + Math.max(0, line.length / 3 - 1), 0);
  if (segments === 0) return null;
  const starts = new Float32Array(segments * 3);
  const ends = new Float32Array(segments * 3);
  let at = 0;
  for (const line of polylines) {
    const length = line.length - 3;
    if (length < 3) continue;
    starts.set(line.subarray(0, length), at);
    ends.set(line.subarray(3), at);
    at += length;
  }
  const geometry = new InstancedBufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(Float32Array.of(0, -1, 0, 1, -1, 0, 0, 1, 0, 1, 1, 0), 3));
  geometry.setIndex([0, 1, 2, 2, 1, 3]);
  geometry.setAttribute("start", new InstancedBufferAttribute(starts, 3));
  geometry.setAttribute("end", new InstancedBufferAttribute(ends, 3));
  geometry.instanceCount = segments;
  return geometry;
}
