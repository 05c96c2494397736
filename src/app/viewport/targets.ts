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
  layer(name: "solid" | "glass" | "buried" | "ghosts" | "swept"): WebGLRenderTarget {
    return this.#get(name, () => {
      const depthTexture = new DepthTexture(this.width, this.height, UnsignedIntType);
      const target = new WebGLRenderTarget(this.width, this.height, { ...NEAREST, count: 2, depthTexture });
      // colour is averaged over a pixel's samples; marks never are
      const colour = target.textures[0]!;
      [colour.minFilter, colour.magFilter] = [LinearFilter, LinearFilter];
      return target;
    });
  }

  /** Occlusion at half the size. */
  occlusion(name: "occlusion" | "blurred"): WebGLRenderTarget {
    const [width, height] = [Math.ceil(this.width / 2), Math.ceil(this.height / 2)];
    return this.#get(name, () => new WebGLRenderTarget(width, height, { ...NEAREST, depthBuffer: false }));
  }

  /** The picture itself, where it has fewer pixels than the screen. */
  picture(width: number, height: number): WebGLRenderTarget {
    return this.#get("picture", () => new WebGLRenderTarget(width, height, { ...LINEAR, depthBuffer: false }));
  }

  /** Distance from what is held. */
  distance(name: "heldAlong" | "held"): WebGLRenderTarget {
    const { width, height } = this;
    return this.#get(name, () => new WebGLRenderTarget(width, height, { ...LINEAR, depthBuffer: false }));
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

const LINEAR = { minFilter: LinearFilter, magFilter: LinearFilter, type: UnsignedByteType } as const;
const NEAREST = { minFilter: NearestFilter, magFilter: NearestFilter, type: UnsignedByteType } as const;

/** Targets by use and size; of each use the last two sizes are kept: for movement and for rest. */
export class TargetPool {
  readonly #byKey = new Map<string, Targets>();

  get(use: string, width: number, height: number): Targets {
    const key = `${use} ${Math.round(width)}x${Math.round(height)}`;
    let targets = this.#byKey.get(key);
    if (targets === undefined) {
      const kin = [...this.#byKey.keys()].filter((other) => other.startsWith(`${use} `));
      for (const old of kin.slice(0, -1)) {
        this.#byKey.get(old)?.dispose();
        this.#byKey.delete(old);
      }
      targets = new Targets(width, height);
      this.#byKey.set(key, targets);
    }
    return targets;
  }

  dispose(): void {
    for (const targets of this.#byKey.values()) targets.dispose();
    this.forget();
  }

  /** After a lost context: they are gone already. */
  forget(): void {
    this.#byKey.clear();
  }
}
