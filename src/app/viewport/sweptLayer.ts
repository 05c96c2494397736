import { BufferAttribute, BufferGeometry, Mesh, type RawShaderMaterial, Scene } from "three";
import { identityPose } from "../../maths/pose.ts";
import { type BodyLayer, MOST_BODIES, writePose } from "./bodyLayer.ts";
import { heedCut, partMaterial, type SharedUniforms } from "./materials.ts";
import { TONES, type Tone } from "./palette.ts";

/** The room that a part sweeps through, as a surface. */
export interface SweptSurface {
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  readonly indices: Uint32Array;
  readonly tone: Tone;
  /** Key of the body on which the surface rides; null: it stands in the car. */
  readonly on: string | null;
}

const AT_REST = identityPose();

/** Swept surfaces, which are seen through. */
export class SweptLayer {
  readonly scene = new Scene();
  readonly #shared: SharedUniforms;
  #surfaces: readonly { readonly shown: SweptSurface; readonly mesh: Mesh<BufferGeometry, RawShaderMaterial> }[] = [];
  #isCut = false;

  constructor(shared: SharedUniforms) {
    this.#shared = shared;
    this.scene.matrixWorldAutoUpdate = false;
  }

  get isEmpty(): boolean {
    return this.#surfaces.length === 0;
  }

  setSurfaces(surfaces: readonly SweptSurface[]): void {
    const before = new Map(this.#surfaces.map((surface) => [surface.shown, surface]));
    this.#surfaces = surfaces.map((shown, i) => {
      const kept = before.get(shown);
      before.delete(shown);
      return kept ?? this.#make(shown, i);
    });
    for (const { mesh } of before.values()) {
      this.scene.remove(mesh);
      mesh.geometry.dispose();
      mesh.material.dispose();
    }
  }

  setCut(isCut: boolean): void {
    this.#isCut = isCut;
    for (const { mesh } of this.#surfaces) heedCut(mesh.material, isCut);
  }

  follow(bodies: BodyLayer): void {
    for (const { shown, mesh } of this.#surfaces) {
      writePose(shown.on === null ? AT_REST : bodies.poseOf(shown.on), mesh.matrixWorld.elements);
    }
  }

  dispose(): void {
    this.setSurfaces([]);
  }

  #make(shown: SweptSurface, number: number) {
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", new BufferAttribute(shown.positions, 3));
    geometry.setAttribute("normal", new BufferAttribute(shown.normals, 3));
    geometry.setIndex(new BufferAttribute(shown.indices, 1));
    const material = partMaterial(this.#shared, TONES.indexOf(shown.tone), 1, true);
    material.uniforms.uMark.value = MOST_BODIES - number;
    heedCut(material, this.#isCut);
    const mesh = new Mesh(geometry, material as RawShaderMaterial);
    mesh.matrixAutoUpdate = false;
    mesh.frustumCulled = false;
    this.scene.add(mesh);
    return { shown, mesh };
  }
}
