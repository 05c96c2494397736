import { DepthTexture, LinearFilter, NearestFilter, UnsignedByteType, UnsignedIntType, WebGLRenderTarget } from "three";

/** What the passes of one picture draw into; made at first use, all of one size in samples. */
export class Targets {
  readonly width: number;
  readonly height: number;
  readonly #made = new Map<string, WebGLRenderTarget>();

  constructor(width: number, height: number) {
    this.width = Math.max(1, Math.round(width));
    this.height = Math.max(1, Math.round(height));
  }

  /** Colour, mark and depth of one layer. */
  layer(name: "solid" | "glass" | "buried"): WebGLRenderTarget {
    return this.#get(name, () => {
      const depthTexture = new DepthTexture(this.width, this.height, UnsignedIntType);
      return new WebGLRenderTarget(this.width, this.height, { ...NEAREST, count: 2, depthTexture });
    });
  }

  /** Occlusion at half the size. */
  occlusion(name: "occlusion" | "blurred"): WebGLRenderTarget {
    const [width, height] = [Math.ceil(this.width / 2), Math.ceil(this.height / 2)];
    return this.#get(name, () => new WebGLRenderTarget(width, height, { ...NEAREST, depthBuffer: false }));
  }

  picture(): WebGLRenderTarget {
    return this.#get(
      "picture",
      () =>
        new WebGLRenderTarget(this.width, this.height, {
          minFilter: LinearFilter,
          magFilter: LinearFilter,
          depthBuffer: false,
        }),
    );
  }

  dispose(): void {
    for (const target of this.#made.values()) {
      target.depthTexture?.dispose();
      target.dispose();
    }
    this.#made.clear();
  }

  #get(name: string, make: () => WebGLRenderTarget): WebGLRenderTarget {
    let target = this.#made.get(name);
    if (target === undefined) {
      target = make();
      this.#made.set(name, target);
    }
    return target;
  }
}

const NEAREST = { minFilter: NearestFilter, magFilter: NearestFilter, type: UnsignedByteType } as const;
