import {
  type PerspectiveCamera,
  Sphere,
  type Texture,
  Vector2,
  Vector4,
  type WebGLRenderer,
  type WebGLRenderTarget,
} from "three";
import type { Show, Theme } from "../store/state.ts";
import type { BodyLayer, Part } from "./bodyLayer.ts";
import type { FloorShadow } from "./floorShadow.ts";
import { applyTheme, type SharedUniforms } from "./materials.ts";
import { INK_WIDTHS_PX, PALETTES } from "./palette.ts";
import type { PatchLayer } from "./patchLayer.ts";
import { OCCLUSION_SAMPLES, type Quality } from "./quality.ts";
import { ScreenPass } from "./screenPass.ts";
import { COMPOSITE_FRAGMENT } from "./shaders/composite.ts";
import { FINISH_FRAGMENT } from "./shaders/finish.ts";
import { OCCLUSION_BLUR_FRAGMENT, OCCLUSION_FRAGMENT } from "./shaders/occlusion.ts";
import type { Targets } from "./targets.ts";

export interface PictureRequest {
  readonly camera: PerspectiveCamera;
  readonly targets: Targets;
  readonly theme: Theme;
  readonly quality: Quality;
  /** Samples along one side of a CSS pixel, for line widths and patterns. */
  readonly samplesPerPx: number;
  /** Thicker or thinner ink than on the screen (small or printed pictures). */
  readonly inkScale: number;
  /** Plain white behind the car, no floor: for paper. */
  readonly white: boolean;
  readonly floor: boolean;
  readonly style: (part: Part) => Show;
  /** null: the screen, in the viewport that the renderer has now. */
  readonly output: WebGLRenderTarget | null;
  /** Leave the car's depth in the output, for things drawn after it. */
  readonly depthOut: boolean;
}

const texture = () => ({ value: null as Texture | null });
const colour = () => ({ value: [0, 0, 0] as readonly number[] });
const flag = () => ({ value: false });

/** The steps of one picture: parts, glass, buried surfaces; soft occlusion; everything together; to the screen. */
export class Passes {
  readonly #renderer: WebGLRenderer;
  readonly #shared: SharedUniforms;
  readonly #occlusion = new Map<number, ReturnType<typeof occlusionPass>>();
  readonly #blur = new ScreenPass("occlusion blur", OCCLUSION_BLUR_FRAGMENT, {
    tOcclusion: texture(),
    tMark: texture(),
    uStep: { value: new Vector2() },
  });
  readonly #composite = compositePass();
  readonly #finish = finishPass({});
  readonly #finishSmooth = finishPass({ SMOOTH: 1 });

  constructor(renderer: WebGLRenderer, shared: SharedUniforms) {
    this.#renderer = renderer;
    this.#shared = shared;
  }

  draw(request: PictureRequest, bodies: BodyLayer, patches: PatchLayer, floor: FloorShadow): void {
    const { camera, targets, quality, style } = request;
    const renderer = this.#renderer;
    const u = this.#composite.uniforms;
    applyTheme(this.#shared, request.theme);
    this.#shared.uPixel.value = request.samplesPerPx;
    this.#shared.uSize.value.set(targets.width, targets.height);
    renderer.setClearColor(0, 0);

    const solid = targets.layer("solid");
    bodies.only("solid", style);
    this.#drawLayer(solid, () => {
      renderer.render(bodies.scene, camera);
      patches.prepare(camera, false, style);
      renderer.render(patches.scene, camera);
    });
    const glassOn = bodies.only("glass", style);
    if (glassOn) this.#drawLayer(targets.layer("glass"), () => renderer.render(bodies.scene, camera));
    const buriedOn = patches.hasBuried;
    if (buriedOn) {
      patches.prepare(camera, true, style);
      this.#drawLayer(targets.layer("buried"), () => renderer.render(patches.scene, camera));
    }

    const [colourTexture, markTexture] = solid.textures as [Texture, Texture];
    if (quality > 0) this.#drawOcclusion(request, markTexture, solid.depthTexture);
    u.tColour.value = colourTexture;
    u.tMark.value = markTexture;
    u.tDepth.value = solid.depthTexture;
    u.uGlassOn.value = glassOn;
    const glass = glassOn ? targets.layer("glass") : solid;
    u.tGlassMark.value = glass.textures[1] ?? null;
    u.tGlassDepth.value = glass.depthTexture;
    u.uBuriedOn.value = buriedOn;
    const buried = buriedOn ? targets.layer("buried") : solid;
    u.tBuriedColour.value = buried.textures[0] ?? null;
    u.tBuriedMark.value = buried.textures[1] ?? null;
    u.uPair.value = [...patches.pair];
    u.uOcclusionOn.value = quality > 0;
    u.tOcclusion.value = quality > 0 ? targets.occlusion("occlusion").texture : markTexture;
    this.#setLook(request, floor);
    this.#setHeldBox(request, bodies);
    const picture = targets.picture();
    this.#composite.run(renderer, picture);

    const finish = request.samplesPerPx <= 1 ? this.#finishSmooth : this.#finish;
    finish.uniforms.tPicture.value = picture.texture;
    finish.uniforms.tDepth.value = solid.depthTexture;
    finish.uniforms.uDepthOut.value = request.depthOut;
    finish.run(renderer, request.output);
  }

  dispose(): void {
    for (const pass of this.#occlusion.values()) pass.dispose();
    for (const pass of [this.#blur, this.#composite, this.#finish, this.#finishSmooth]) pass.dispose();
  }

  #drawLayer(target: WebGLRenderTarget, draw: () => void): void {
    this.#renderer.setRenderTarget(target);
    this.#renderer.clear();
    draw();
  }

  #drawOcclusion({ quality, camera, targets }: PictureRequest, mark: Texture, depth: Texture | null): void {
    const samples = OCCLUSION_SAMPLES[quality];
    let pass = this.#occlusion.get(samples);
    if (pass === undefined) {
      pass = occlusionPass(samples);
      this.#occlusion.set(samples, pass);
    }
    const [first, second] = [targets.occlusion("occlusion"), targets.occlusion("blurred")];
    pass.uniforms.tMark.value = mark;
    pass.uniforms.tDepth.value = depth;
    pass.uniforms.uProjection.value = camera.projectionMatrix.elements;
    pass.run(this.#renderer, first);
    const blur = this.#blur.uniforms;
    blur.tMark.value = mark;
    for (const [from, to, x, y] of [
      [first, second, 1, 0],
      [second, first, 0, 1],
    ] as const) {
      blur.tOcclusion.value = from.texture;
      blur.uStep.value.set(x / from.width, y / from.height);
      this.#blur.run(this.#renderer, to);
    }
  }

  #setLook(request: PictureRequest, floor: FloorShadow): void {
    const u = this.#composite.uniforms;
    const palette = PALETTES[request.theme];
    const white = [1, 1, 1];
    u.uSize.value.set(request.targets.width, request.targets.height);
    u.uPixel.value = request.samplesPerPx;
    u.uInkWidths.value = INK_WIDTHS_PX.map((width) => width * request.inkScale);
    u.uInk.value = palette.ink;
    u.uOutline.value = palette.outline;
    u.uOutlineOwn.value = palette.outline.some((value, i) => value !== palette.ink[i]) && !request.white;
    u.uSky.value = request.white ? white : palette.sky;
    u.uSkyHigh.value = request.white ? white : palette.skyHigh;
    u.uFloorColour.value = palette.floor;
    u.uFloorOn.value = request.floor && !request.white;
    u.uShadow.value = palette.shadow;
    u.tFloor.value = floor.texture;
    u.uFloorArea.value.copy(floor.area);
    u.uFloorCentre.value.copy(floor.centre);
    u.uHeldColour.value = palette.held;
    u.uGlass.value = palette.glass;
    u.uGlassEdge.value = palette.glassEdge;
    u.uGlassFill.value = palette.glassFill;
    u.uOcclusionAmount.value = palette.occlusion;
    u.uProjection.value = request.camera.projectionMatrix.elements;
    u.uCameraWorld.value = request.camera.matrixWorld.elements;
  }

  /** Only near what is held is it worth looking for its outline: the box of its spheres in the picture, 0..1. */
  #setHeldBox({ camera, targets, samplesPerPx, style }: PictureRequest, bodies: BodyLayer): void {
    const box = this.#composite.uniforms.uHeldBox.value.set(2, 2, -1, -1);
    const sphere = new Sphere();
    for (const part of bodies.parts) {
      if (!bodies.isHeld(part) || style(part) === "off") continue;
      bodies.whereIs(part, sphere);
      const centre = sphere.center.applyMatrix4(camera.matrixWorldInverse);
      const near = -centre.z - sphere.radius;
      if (-centre.z + sphere.radius <= 0) continue;
      if (near <= camera.near) {
        box.set(0, 0, 1, 1);
        return;
      }
      const p = camera.projectionMatrix.elements;
      const x = ((centre.x * p[0]! + centre.z * p[8]!) / -centre.z) * 0.5 + 0.5;
      const y = ((centre.y * p[5]! + centre.z * p[9]!) / -centre.z) * 0.5 + 0.5;
      const [rx, ry] = [(sphere.radius * p[0]!) / near / 2, (sphere.radius * p[5]!) / near / 2];
      const [mx, my] = [(8 * samplesPerPx) / targets.width, (8 * samplesPerPx) / targets.height];
      box.set(
        Math.min(box.x, x - rx - mx),
        Math.min(box.y, y - ry - my),
        Math.max(box.z, x + rx + mx),
        Math.max(box.w, y + ry + my),
      );
    }
  }
}

function occlusionPass(samples: number) {
  return new ScreenPass(
    `occlusion ${samples}`,
    OCCLUSION_FRAGMENT,
    { tMark: texture(), tDepth: texture(), uReach: { value: 1 }, uProjection: { value: [] as number[] } },
    { defines: { SAMPLES: samples } },
  );
}

function finishPass(defines: Record<string, number>) {
  const uniforms = { tPicture: texture(), tDepth: texture(), uDepthOut: flag() };
  return new ScreenPass("finish", FINISH_FRAGMENT, uniforms, { defines, depth: true });
}

function compositePass() {
  return new ScreenPass("composite", COMPOSITE_FRAGMENT, {
    tColour: texture(),
    tMark: texture(),
    tDepth: texture(),
    tGlassMark: texture(),
    tGlassDepth: texture(),
    tBuriedColour: texture(),
    tBuriedMark: texture(),
    tOcclusion: texture(),
    tFloor: texture(),
    uGlassOn: flag(),
    uBuriedOn: flag(),
    uOcclusionOn: flag(),
    uFloorOn: flag(),
    uSize: { value: new Vector2() },
    uPixel: { value: 1 },
    uInkWidths: { value: [] as readonly number[] },
    uInk: colour(),
    uOutline: colour(),
    uOutlineOwn: flag(),
    uSky: colour(),
    uSkyHigh: colour(),
    uFloorColour: colour(),
    uShadow: { value: 0 },
    uHeldColour: colour(),
    uHeldBox: { value: new Vector4() },
    uGlass: colour(),
    uGlassEdge: colour(),
    uGlassFill: { value: 0 },
    uOcclusionAmount: { value: 0 },
    uPair: { value: [0, 0] as number[] },
    uProjection: { value: [] as number[] },
    uCameraWorld: { value: [] as number[] },
    uFloorArea: { value: new Vector4() },
    uFloorCentre: { value: new Vector2() },
  });
}
