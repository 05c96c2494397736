import {
  NearestFilter,
  type PerspectiveCamera,
  type Texture,
  Vector2,
  Vector3,
  type WebGLRenderer,
  WebGLRenderTarget,
} from "three";
import type { Vec3 } from "../../maths/vec3.ts";
import { ScreenPass } from "./screenPass.ts";
import { PICK_FRAGMENT } from "./shaders/pick.ts";
import type { Targets } from "./targets.ts";

export interface PickHit {
  readonly number: number;
  readonly at: Vec3;
}

/** Finger room: pixels read round the pointed one, CSS px each way. */
const REACH_PX = 4;
const SIDE = REACH_PX * 2 + 1;

/** Reads from the last picture what lies under a pointer. */
export class Picker {
  readonly #renderer: WebGLRenderer;
  readonly #target = new WebGLRenderTarget(SIDE, SIDE, {
    count: 2,
    minFilter: NearestFilter,
    magFilter: NearestFilter,
    depthBuffer: false,
  });
  readonly #pass = new ScreenPass("pick", PICK_FRAGMENT, {
    tMark: { value: null as Texture | null },
    tDepth: { value: null as Texture | null },
    uAt: { value: new Vector2() },
    uSpan: { value: new Vector2() },
  });
  readonly #marks = new Uint8Array(SIDE * SIDE * 4);
  readonly #depths = new Uint8Array(SIDE * SIDE * 4);

  constructor(renderer: WebGLRenderer) {
    this.#renderer = renderer;
  }

  /** `x`, `y`: 0..1 of the picture, from its lower left. Nearest hit within finger room; null: nothing of the layer there. */
  pick(
    layer: "solid" | "glass",
    targets: Targets,
    camera: PerspectiveCamera,
    x: number,
    y: number,
    size: { readonly width: number; readonly height: number },
  ): PickHit | null {
    const source = targets.layer(layer);
    const u = this.#pass.uniforms;
    u.tMark.value = source.textures[1] ?? null;
    u.tDepth.value = source.depthTexture;
    u.uAt.value.set(x, y);
    u.uSpan.value.set(SIDE / size.width, SIDE / size.height);
    this.#pass.run(this.#renderer, this.#target);
    this.#renderer.readRenderTargetPixels(this.#target, 0, 0, SIDE, SIDE, this.#marks, undefined, 0);
    this.#renderer.readRenderTargetPixels(this.#target, 0, 0, SIDE, SIDE, this.#depths, undefined, 1);
    let best = -1;
    let bestAway = Infinity;
    for (let i = 0; i < SIDE * SIDE; i++) {
      if (this.#number(i) === 0) continue;
      const away = Math.hypot((i % SIDE) - REACH_PX, Math.floor(i / SIDE) - REACH_PX);
      if (away < bestAway) [best, bestAway] = [i, away];
    }
    if (best < 0) return null;
    const d = this.#depths.subarray(best * 4, best * 4 + 4);
    const depth = (d[0]! + d[1]! / 255 + d[2]! / 65025 + d[3]! / 16581375) / 255;
    const px = x + ((best % SIDE) - REACH_PX) / size.width;
    const py = y + (Math.floor(best / SIDE) - REACH_PX) / size.height;
    const at = new Vector3(px * 2 - 1, py * 2 - 1, depth * 2 - 1)
      .applyMatrix4(camera.projectionMatrixInverse)
      .applyMatrix4(camera.matrixWorld);
    return { number: this.#number(best), at: [at.x, at.y, at.z] };
  }

  dispose(): void {
    this.#target.dispose();
    this.#pass.dispose();
  }

  #number(i: number): number {
    return (this.#marks[i * 4 + 2]! | (this.#marks[i * 4 + 3]! << 8)) & 4095;
  }
}
