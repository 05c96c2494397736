import { type BufferGeometry, Mesh, type RawShaderMaterial, Scene, Sphere, Vector3 } from "three";
import { type CoilLook, type CoilSizes, pairCoils, placeCoil } from "../../check/coilLook.ts";
import type { ModelBody, PartGroup } from "../../check/model.ts";
import { identityPose, type Pose } from "../../maths/pose.ts";
import type { Show } from "../store/state.ts";
import { coilGeometry } from "./coilLook.ts";
import { GeometryCache } from "./geometryCache.ts";
import { MaterialPool } from "./materialPool.ts";
import {
  type CoilMaterial,
  coilMaterial,
  heedCut,
  type PartMaterial,
  partMaterial,
  type SharedUniforms,
} from "./materials.ts";
import { GROUP_NUMBER, TONES, type Tone } from "./palette.ts";

export const HELD_BIT = 1 << 15;
/** The mark has twelve bits for the body; the last number stands for "either of the touching pair". */
export const MOST_BODIES = 4094;

export interface Part {
  readonly body: ModelBody;
  /** 1-based; what the mark buffer calls it. */
  readonly number: number;
  readonly mesh: Mesh<BufferGeometry, RawShaderMaterial>;
  readonly coil: CoilLook | null;
  /** Of the geometry, in design position. */
  readonly bounds: Sphere;
}

const AT_REST = identityPose();

/** The car's bodies as meshes: made when the list changes, moved when poses do. */
export class BodyLayer {
  readonly scene = new Scene();
  parts: readonly Part[] = [];
  readonly #byKey = new Map<string, Part>();
  readonly #heldParts = new Set<Part>();
  readonly #geometries = new GeometryCache();
  readonly #partMaterials: MaterialPool<PartMaterial>;
  readonly #coilMaterials: MaterialPool<CoilMaterial>;
  readonly #coilSizes: CoilSizes = new Map();
  /** By turns; there are few kinds. */
  readonly #coilGeometries = new Map<number, BufferGeometry>();
  #poses: ReadonlyMap<string, Pose> = new Map();
  #held: ReadonlySet<string> = new Set();
  #isCut = false;

  constructor(shared: SharedUniforms) {
    this.#partMaterials = new MaterialPool(() => partMaterial(shared, 0, 1, true));
    this.#coilMaterials = new MaterialPool(() => coilMaterial(shared, 0, 1, [1, 1, 1, 1]));
    this.scene.matrixWorldAutoUpdate = false;
  }

  part(key: string): Part | undefined {
    return this.#byKey.get(key);
  }

  partNumbered(number: number): Part | undefined {
    return this.parts.find((part) => part.number === number);
  }

  setBodies(bodies: readonly ModelBody[]): void {
    for (const { mesh, coil } of this.parts) {
      if (coil === null) this.#partMaterials.giveBack(mesh.material as PartMaterial);
      else this.#coilMaterials.giveBack(mesh.material as CoilMaterial);
    }
    this.scene.clear();
    this.#byKey.clear();
    const coils = pairCoils(bodies, this.#coilSizes);
    const halves = new Set(coils.flatMap((coil) => [coil.upper, coil.lower]));
    const parts: Part[] = [];
    const add = (body: ModelBody, mesh: Part["mesh"], bounds: Sphere, coil: CoilLook | null): void => {
      mesh.matrixAutoUpdate = false;
      heedCut(mesh.material, this.#isCut);
      const part: Part = { body, number: Math.min(parts.length + 1, MOST_BODIES), mesh, coil, bounds };
      parts.push(part);
      this.#byKey.set(body.key, part);
      if (coil !== null) this.#byKey.set(coil.lower.key, part);
      this.scene.add(mesh);
    };
    for (const body of bodies) {
      if (halves.has(body)) continue;
      const geometry = this.#geometries.get(body);
      const material = this.#partMaterials.take();
      material.uniforms.uTone.value = toneNumber(body);
      material.uniforms.uShade.value = shadeOf(body);
      material.uniforms.uCapped.value = isClosed(body);
      const mesh = new Mesh(geometry, material);
      add(body, mesh, geometry.boundingSphere ?? new Sphere(), null);
    }
    for (const coil of coils) {
      const geometry = this.#coilOf(coil.turns);
      const material = this.#coilMaterials.take();
      material.uniforms.uTone.value = toneNumber(coil.upper);
      material.uniforms.uShade.value = shadeOf(coil.upper);
      material.uniforms.uCoil.value = [1, coil.radius_mm, coil.wire_mm / 2, coil.turns];
      const mesh = new Mesh(geometry, material as RawShaderMaterial);
      mesh.frustumCulled = false;
      const reach = new Vector3(...coil.topInUpper).distanceTo(new Vector3(...coil.bottomInLower));
      const centre = new Vector3(...coil.topInUpper).lerp(new Vector3(...coil.bottomInLower), 0.5);
      add(coil.upper, mesh, new Sphere(centre, reach / 2 + coil.radius_mm), coil);
    }
    this.#geometries.keepOnly(bodies);
    this.parts = parts;
    this.setHeld(this.#held);
    this.setPoses(this.#poses);
  }

  /** Writes matrices only; a body without a pose stands where it is drawn. */
  setPoses(poses: ReadonlyMap<string, Pose>): void {
    this.#poses = poses;
    for (const { body, mesh, coil } of this.parts) {
      const world = mesh.matrixWorld.elements;
      if (coil === null) {
        writePose(poses.get(body.key) ?? AT_REST, world);
      } else {
        const upper = poses.get(coil.upper.key) ?? AT_REST;
        const lower = poses.get(coil.lower.key) ?? AT_REST;
        (mesh.material as CoilMaterial).uniforms.uCoil.value[0] = placeCoil(coil, upper, lower, world);
      }
    }
  }

  poseOf(key: string): Pose {
    return this.#poses.get(key) ?? AT_REST;
  }

  /** Ids hold a part on both sides, keys hold one body. */
  setHeld(ids: ReadonlySet<string>): void {
    this.#held = ids;
    this.#heldParts.clear();
    for (const part of this.parts) {
      const { body, mesh, number } = part;
      const isHeld = ids.has(body.id) || ids.has(body.key);
      if (isHeld) this.#heldParts.add(part);
      const held = isHeld ? HELD_BIT : 0;
      const group = GROUP_NUMBER[body.group];
      (mesh.material as PartMaterial).uniforms.uMark.value = number | (group << 12) | held;
    }
  }

  /** Whether the parts heed the cut. */
  setCut(isCut: boolean): void {
    this.#isCut = isCut;
    for (const { mesh } of this.parts) heedCut(mesh.material, isCut);
  }

  isHeld(part: Part): boolean {
    return this.#heldParts.has(part);
  }

  /** Draws only the parts for which `style` gives `shown`; says whether there are any. */
  only(shown: Show, style: (part: Part) => Show): boolean {
    let any = false;
    for (const part of this.parts) {
      const visible = style(part) === shown;
      part.mesh.visible = visible;
      any ||= visible;
    }
    return any;
  }

  /** Middle and radius of a part where it is now, car coordinates. */
  whereIs(part: Part, out: Sphere): Sphere {
    if (part.coil !== null) {
      const length = (part.mesh.material as CoilMaterial).uniforms.uCoil.value[0]!;
      out.center.set(0, 0, length / 2).applyMatrix4(part.mesh.matrixWorld);
      out.radius = Math.hypot(length / 2, part.coil.radius_mm + part.coil.wire_mm);
      return out;
    }
    return out.copy(part.bounds).applyMatrix4(part.mesh.matrixWorld);
  }

  #coilOf(turns: number): BufferGeometry {
    let geometry = this.#coilGeometries.get(turns);
    if (!geometry) {
      geometry = coilGeometry(turns);
      this.#coilGeometries.set(turns, geometry);
    }
    return geometry;
  }

  dispose(): void {
    this.setBodies([]);
    this.#geometries.dispose();
    this.#partMaterials.dispose();
    this.#coilMaterials.dispose();
    for (const geometry of this.#coilGeometries.values()) geometry.dispose();
    this.#coilGeometries.clear();
  }
}

/** Groups as they are shown; of a solid one, `glassKeys` are glass, and so are `touchKeys` of one that is off: a chosen touch never vanishes. */
export function styleByGroup(
  show: Readonly<Record<PartGroup, Show>>,
  glassKeys: ReadonlySet<string>,
  touchKeys: ReadonlySet<string>,
): (part: Part) => Show {
  return ({ body, coil }) => {
    const among = (keys: ReadonlySet<string>): boolean =>
      keys.has(body.key) || (coil !== null && keys.has(coil.lower.key));
    const shown = show[body.group];
    if (shown === "off") return among(touchKeys) ? "glass" : "off";
    return shown === "solid" && among(glassKeys) ? "glass" : shown;
  };
}

export function writePose(pose: Pose, world: number[]): void {
  for (let row = 0; row < 3; row++) {
    for (let column = 0; column < 4; column++) world[column * 4 + row] = pose[row * 4 + column]!;
  }
  world[3] = 0;
  world[7] = 0;
  world[11] = 0;
  world[15] = 1;
}

function isClosed({ solid }: ModelBody): boolean {
  return solid.shells.every(({ closed }) => closed);
}

export function toneOf(body: ModelBody): Tone {
  return body.look === "tyre" ? "rubber" : body.group;
}

export function toneNumber(body: ModelBody): number {
  return TONES.indexOf(toneOf(body));
}

/** A few per cent lighter or darker by id, the same for both sides: neighbours of one group stay apart. */
function shadeOf(body: ModelBody): number {
  if (body.look === "tyre") return 1;
  let hash = 7;
  for (const letter of body.id) hash = (Math.imul(hash, 31) + letter.charCodeAt(0)) | 0;
  const spread = body.group === "arms" ? 0.05 : body.group === "powertrain" ? 0.13 : 0.1;
  return 1 + spread * ((((hash >>> 3) & 255) / 255) * 2 - 1) * (body.group === "arms" ? 0.5 : 1);
}
