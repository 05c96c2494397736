import {
  BufferAttribute,
  BufferGeometry,
  GLSL3,
  Mesh,
  NoBlending,
  OrthographicCamera,
  RawShaderMaterial,
  Scene,
  type WebGLRenderer,
  type WebGLRenderTarget,
} from "three";
import { SCREEN_VERTEX } from "./shaders/common.ts";

const CORNERS = Float32Array.of(-1, -1, 0, 3, -1, 0, -1, 3, 0);

interface ScreenPassOptions {
  readonly defines?: Record<string, number>;
  /** The program writes depth, which replaces the target's. */
  readonly depth?: boolean;
  readonly vertexShader?: string;
}

/** One fragment program over a whole target. */
export class ScreenPass<Uniforms extends Record<string, { value: unknown }>> {
  readonly uniforms: Uniforms;
  readonly #material: RawShaderMaterial;
  readonly #scene = new Scene();
  readonly #mesh: Mesh;
  static readonly #camera = new OrthographicCamera(-1, 1, 1, -1, 0, 1);

  constructor(
    name: string,
    fragmentShader: string,
    uniforms: Uniforms,
    { defines = {}, depth = false, vertexShader = SCREEN_VERTEX }: ScreenPassOptions = {},
  ) {
    this.uniforms = uniforms;
    this.#material = new RawShaderMaterial({
      name,
      glslVersion: GLSL3,
      vertexShader,
      fragmentShader,
      uniforms,
      defines,
      blending: NoBlending,
      depthTest: depth,
      depthWrite: depth,
    });
    if (depth) this.#material.depthFunc = 1; // always
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", new BufferAttribute(CORNERS, 3));
    this.#mesh = new Mesh(geometry, this.#material);
    this.#mesh.frustumCulled = false;
    this.#scene.add(this.#mesh);
    this.#scene.matrixWorldAutoUpdate = false;
  }

  run(renderer: WebGLRenderer, target: WebGLRenderTarget | null): void {
    renderer.setRenderTarget(target);
    renderer.render(this.#scene, ScreenPass.#camera);
  }

  dispose(): void {
    this.#mesh.geometry.dispose();
    this.#material.dispose();
  }
}
