import {
  Box3,
  CustomBlending,
  DoubleSide,
  GLSL3,
  LinearFilter,
  MaxEquation,
  OneFactor,
  OrthographicCamera,
  RawShaderMaterial,
  Sphere,
  type Texture,
  Vector2,
  Vector4,
  type WebGLRenderer,
  WebGLRenderTarget,
} from "three";
import type { BodyLayer, Part } from "./bodyLayer.ts";
import { ScreenPass } from "./screenPass.ts";
import { FLOOR_BLUR_FRAGMENT, FLOOR_SHADE_FRAGMENT } from "./shaders/floor.ts";
import { SURFACE_VERTEX } from "./shaders/surface.ts";

const SIZE = 256;
/** Room round the car for the shadow to fade in, mm. */
const MARGIN_MM = 420;

/** One soft shadow on the floor: the car's plan, darker where a part is near the floor, blurred. */
export class FloorShadow {
  /** x0, y0, width, depth of the shadow's picture on the floor, mm. */
  readonly area = new Vector4(0, 0, 1, 1);
  readonly centre = new Vector2();
  readonly #seen = target();
  readonly #half = target();
  readonly #camera = new OrthographicCamera();
  readonly #blur = new ScreenPass("floor-blur", FLOOR_BLUR_FRAGMENT, {
    tShade: { value: null as Texture | null },
    uStep: { value: new Vector2() },
  });
  readonly #material = new RawShaderMaterial({
    name: "floor-shade",
    glslVersion: GLSL3,
    vertexShader: SURFACE_VERTEX,
    fragmentShader: FLOOR_SHADE_FRAGMENT,
    uniforms: { uLift_mm: { value: 0 } },
    // the darkest surface over a place wins: the lowest
    blending: CustomBlending,
    blendEquation: MaxEquation,
    blendSrc: OneFactor,
    blendDst: OneFactor,
    depthTest: false,
    side: DoubleSide,
  });

  get texture(): Texture {
    return this.#seen.texture;
  }

  draw(renderer: WebGLRenderer, bodies: BodyLayer, shown: (part: Part) => boolean): void {
    this.#place(bodies);
    for (const part of bodies.parts) part.mesh.visible = part.coil === null && shown(part);
    const { scene } = bodies;
    scene.overrideMaterial = this.#material;
    renderer.setRenderTarget(this.#seen);
    renderer.setClearColor(0, 0);
    renderer.clear();
    renderer.render(scene, this.#camera);
    scene.overrideMaterial = null;
    // the second pair of runs widens the first
    for (const step of [1, 2.2]) {
      this.#blurOnce(renderer, this.#seen, this.#half, step / SIZE, 0);
      this.#blurOnce(renderer, this.#half, this.#seen, 0, step / SIZE);
    }
  }

  dispose(): void {
    this.#seen.dispose();
    this.#half.dispose();
    this.#blur.dispose();
    this.#material.dispose();
  }

  #blurOnce(renderer: WebGLRenderer, from: WebGLRenderTarget, to: WebGLRenderTarget, x: number, y: number): void {
    this.#blur.uniforms.tShade.value = from.texture;
    this.#blur.uniforms.uStep.value.set(x, y);
    this.#blur.run(renderer, to);
  }

  /** Straight down; the picture's axes are the car's X and Y. */
  #place(bodies: BodyLayer): void {
    const box = new Box3();
    const sphere = new Sphere();
    const own = new Box3();
    for (const part of bodies.parts) box.union(bodies.whereIs(part, sphere).getBoundingBox(own));
    if (box.isEmpty()) box.set(own.min.setScalar(-500), own.max.setScalar(500));
    box.expandByScalar(MARGIN_MM);
    this.area.set(box.min.x, box.min.y, box.max.x - box.min.x, box.max.y - box.min.y);
    this.centre.set((box.min.x + box.max.x) / 2, (box.min.y + box.max.y) / 2);
    const camera = this.#camera;
    [camera.left, camera.right] = [-this.area.z / 2, this.area.z / 2];
    [camera.bottom, camera.top] = [-this.area.w / 2, this.area.w / 2];
    [camera.near, camera.far] = [0, 6000];
    camera.position.set(this.centre.x, this.centre.y, 5000);
    camera.up.set(0, 1, 0);
    camera.lookAt(this.centre.x, this.centre.y, 0);
    camera.updateProjectionMatrix();
    camera.updateMatrixWorld();
  }
}

function target(): WebGLRenderTarget {
  return new WebGLRenderTarget(SIZE, SIZE, { minFilter: LinearFilter, magFilter: LinearFilter });
}
