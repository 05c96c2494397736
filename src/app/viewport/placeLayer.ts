import {
  BufferAttribute,
  BufferGeometry,
  GLSL3,
  GreaterDepth,
  LessEqualDepth,
  type PerspectiveCamera,
  Points,
  RawShaderMaterial,
  Scene,
  type WebGLRenderer,
} from "three";
import type { Pose } from "../../maths/pose.ts";
import type { Theme } from "../store/state.ts";
import { writePose } from "./bodyLayer.ts";
import { PALETTES } from "./palette.ts";
import { PLACES_FRAGMENT, PLACES_VERTEX } from "./shaders/places.ts";

/** Places of a map, each with a mark. A new object is drawn anew. */
export interface ShownPlaces {
  /** Where the part that they ride on is drawn, mm; 3 a place. */
  readonly positions: Float32Array;
  /** One a place: 1 too close, 2 a limit, 3 cannot be, 4 to 8 room from little to much. */
  readonly marks: Float32Array;
  /** How far apart they are, mm. */
  readonly step_mm: number;
  /** From where the part is drawn to where it is. */
  readonly pose: Pose;
}

/** What lies behind a part is seen through it, faintly. */
const BEHIND = 0.42;

/** Places of a map as a cloud over the finished picture, with the car's depth. */
export class PlaceLayer {
  readonly #scene = new Scene();
  readonly #materials = { behind: material(BEHIND), before: material(1) };
  #shown: ShownPlaces | null = null;
  #geometry: BufferGeometry | null = null;

  constructor() {
    this.#scene.matrixWorldAutoUpdate = false;
    this.#materials.behind.depthFunc = GreaterDepth;
    this.#materials.behind.depthWrite = false;
    this.#materials.before.depthFunc = LessEqualDepth;
  }

  get isEmpty(): boolean {
    return this.#shown === null || this.#shown.marks.length === 0;
  }

  setPlaces(shown: ShownPlaces | null): void {
    if (shown === this.#shown) return;
    const isSame = shown !== null && shown.positions === this.#shown?.positions && shown.marks === this.#shown.marks;
    this.#shown = shown;
    if (!isSame) {
      this.#scene.clear();
      this.#geometry?.dispose();
      this.#geometry = null;
      if (!shown || shown.marks.length === 0) return;
      this.#geometry = new BufferGeometry();
      this.#geometry.setAttribute("position", new BufferAttribute(shown.positions, 3));
      this.#geometry.setAttribute("mark", new BufferAttribute(shown.marks, 1));
      // what is hidden first, so that what is not lies over it
      for (const [i, each] of [this.#materials.behind, this.#materials.before].entries()) {
        const points = new Points(this.#geometry, each);
        points.frustumCulled = false;
        points.matrixAutoUpdate = false;
        points.renderOrder = i;
        this.#scene.add(points);
      }
    }
    for (const points of this.#scene.children) writePose(shown!.pose, points.matrixWorld.elements);
  }

  /** Into the target that is set, whose depth is the car's. `height`: its pixels; `perPx`: of them to a CSS px. */
  draw(renderer: WebGLRenderer, camera: PerspectiveCamera, theme: Theme, height: number, perPx: number): void {
    const palette = PALETTES[theme];
    for (const { uniforms } of [this.#materials.behind, this.#materials.before]) {
      uniforms.uColours!.value = [
        palette.glassEdge,
        palette.clash,
        palette.limit,
        palette.glassEdge,
        ...palette.room,
      ].flatMap((colour) => [...colour]);
      uniforms.uInk!.value = [...palette.ink];
      uniforms.uHeight!.value = height;
      uniforms.uPixel!.value = perPx;
      uniforms.uStep_mm!.value = this.#shown?.step_mm ?? 1;
    }
    renderer.render(this.#scene, camera);
  }

  dispose(): void {
    this.setPlaces(null);
    for (const each of Object.values(this.#materials)) each.dispose();
  }
}

function material(opacity: number): RawShaderMaterial {
  return new RawShaderMaterial({
    name: "places",
    glslVersion: GLSL3,
    vertexShader: PLACES_VERTEX,
    fragmentShader: PLACES_FRAGMENT,
    transparent: true,
    uniforms: {
      uColours: { value: new Array<number>(27).fill(0) },
      uInk: { value: [0, 0, 0] },
      uHeight: { value: 1 },
      uPixel: { value: 1 },
      uStep_mm: { value: 1 },
      uOpacity: { value: opacity },
    },
  });
}
