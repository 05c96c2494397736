import {
  type PerspectiveCamera,
  Sphere,
  type Texture,
  Vector2,
  Vector3,
  Vector4,
  type WebGLRenderer,
  type WebGLRenderTarget,
} from "three";
import type { Show, Theme } from "../store/state.ts";
import type { BodyLayer, Part } from "./bodyLayer.ts";
import { applyCut, type Cut } from "./cut.ts";
import type { FloorShadow } from "./floorShadow.ts";
import { applyTheme, type SharedUniforms } from "./materials.ts";
import { INK_WIDTHS_PX, PALETTES } from "./palette.ts";
import { MOST_PATCHED } from "./patchLayer.ts";
import type { PictureLayers } from "./pictureLayers.ts";
import { OCCLUSION_SAMPLES, type Quality, type Sampling } from "./quality.ts";
import { ScreenPass } from "./screenPass.ts";
import { COMPOSITE_FRAGMENT, COMPOSITE_VERTEX } from "./shaders/composite.ts";
import { ENLARGE_FRAGMENT } from "./shaders/enlarge.ts";
import { HELD_FRAGMENT } from "./shaders/held.ts";
import { OCCLUSION_BLUR_FRAGMENT, OCCLUSION_FRAGMENT } from "./shaders/occlusion.ts";
import type { Targets } from "./targets.ts";

export interface PictureRequest {
  readonly camera: PerspectiveCamera;
  readonly targets: Targets;
  readonly theme: Theme;
  readonly quality: Quality;
  readonly sampling: Sampling;
  /** Pixels of the output along one side of a CSS pixel. */
  readonly outputPerPx: number;
  /** Thicker or thinner ink than on the screen (small or printed pictures). */
  readonly inkScale: number;
  /** Plain white behind the car, no floor: for paper. */
  readonly white: boolean;
  readonly floor: boolean;
  readonly style: (part: Part) => Show;
  /** What of the car is cut away; null: nothing. */
  readonly cut: Cut | null;
  /** Ghosts and swept surfaces are drawn too. */
  readonly overlays: boolean;
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
  readonly #blur = new ScreenPass("occlusion-blur", OCCLUSION_BLUR_FRAGMENT, {
    tOcclusion: texture(),
    tMark: texture(),
    uStep: { value: new Vector2() },
  });
  readonly #composite = compositePass();
  readonly #enlarge = new ScreenPass(
    "enlarge",
    ENLARGE_FRAGMENT,
    { tPicture: texture(), tDepth: texture(), uDepthOut: flag() },
    { depth: true },
  );
  readonly #heldAlong = heldPass("held-along", {});
  readonly #heldAcross = heldPass("held-across", { ACROSS: 1 });

  constructor(renderer: WebGLRenderer, shared: SharedUniforms) {
    this.#renderer = renderer;
    this.#shared = shared;
  }

  draw(request: PictureRequest, { bodies, patches, floor, ghosts, swept, places }: PictureLayers): void {
    const { camera, targets, quality, style } = request;
    const renderer = this.#renderer;
    const u = this.#composite.uniforms;
    applyTheme(this.#shared, request.theme);
    applyCut(this.#shared, request.cut, camera, mmPerPx(request));
    this.#shared.uPixel.value = request.sampling.samples;
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

    const ghostsOn = request.overlays && !ghosts.isEmpty;
    if (ghostsOn) {
      ghosts.show((part) => style(part) !== "off");
      this.#drawLayer(targets.layer("ghosts"), () => renderer.render(ghosts.scene, camera));
    }
    const sweptOn = request.overlays && !swept.isEmpty;
    if (sweptOn) this.#drawLayer(targets.layer("swept"), () => renderer.render(swept.scene, camera));

    const [colourTexture, markTexture] = solid.textures as [Texture, Texture];
    if (quality > 0) this.#drawOcclusion(request, markTexture, solid.depthTexture);
    u.tColour.value = colourTexture;
    u.tMark.value = markTexture;
    u.tDepth.value = solid.depthTexture;
    u.uGlassOn.value = glassOn;
    const glass = glassOn ? targets.layer("glass") : solid;
    u.tGlassMark.value = glass.textures[1] ?? null;
    u.tGlassDepth.value = glass.depthTexture;
    u.uGhostsOn.value = ghostsOn;
    const ghost = ghostsOn ? targets.layer("ghosts") : solid;
    u.tGhostMark.value = ghost.textures[1] ?? null;
    u.tGhostDepth.value = ghost.depthTexture;
    u.uSweptOn.value = sweptOn;
    const room = sweptOn ? targets.layer("swept") : solid;
    u.tSweptColour.value = room.textures[0] ?? null;
    u.tSweptMark.value = room.textures[1] ?? null;
    u.tSweptDepth.value = room.depthTexture;
    u.uBuriedOn.value = buriedOn;
    const buried = buriedOn ? targets.layer("buried") : solid;
    u.tBuriedColour.value = buried.textures[0] ?? null;
    u.tBuriedMark.value = buried.textures[1] ?? null;
    for (let i = 0; i < MOST_PATCHED; i++) u.uPatched.value[i] = patches.patched[i] ?? 0;
    u.uOcclusionOn.value = quality > 0;
    u.tOcclusion.value = quality > 0 ? targets.occlusion("occlusion").texture : markTexture;
    const placesOn = request.overlays && !places.isEmpty;
    const depthOut = request.depthOut || placesOn;
    u.uDepthOut.value = depthOut;
    u.uSamplesPerPx.value = request.sampling.samples;
    this.#setLook(request, floor);
    this.#drawHeld(request, bodies, glassOn);

    // with fewer pixels than the output has the picture is put together small and enlarged
    const { samples, pixels } = request.sampling;
    const small = pixels < request.outputPerPx;
    const share = pixels / samples;
    const [width, height] = [Math.round(targets.width * share), Math.round(targets.height * share)];
    u.uSize.value.set(width, height);
    u.uPixel.value = pixels;
    if (!small) this.#composite.run(renderer, request.output);
    else this.#enlargeTo(request, solid, depthOut, width, height);
    if (!placesOn) return;
    renderer.setRenderTarget(request.output);
    const output_px = Math.round((targets.height / samples) * request.outputPerPx);
    places.draw(renderer, camera, request.theme, output_px, request.outputPerPx);
  }

  /** Puts the picture together small and enlarges it to the output. */
  #enlargeTo(
    { targets, output }: PictureRequest,
    solid: WebGLRenderTarget,
    depthOut: boolean,
    width: number,
    height: number,
  ): void {
    const renderer = this.#renderer;
    const picture = targets.picture(width, height);
    this.#composite.run(renderer, picture);
    this.#enlarge.uniforms.tPicture.value = picture.texture;
    this.#enlarge.uniforms.tDepth.value = solid.depthTexture;
    this.#enlarge.uniforms.uDepthOut.value = depthOut;
    this.#enlarge.run(renderer, output);
  }

  dispose(): void {
    for (const pass of this.#occlusion.values()) pass.dispose();
    for (const pass of [this.#blur, this.#composite, this.#enlarge, this.#heldAlong, this.#heldAcross]) pass.dispose();
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

  /** How far samples near what is held are from it; only there, for nowhere else does it matter. */
  #drawHeld(request: PictureRequest, bodies: BodyLayer, glassOn: boolean): void {
    const { targets, sampling } = request;
    const u = this.#composite.uniforms;
    const along = targets.distance("heldAlong");
    const across = targets.distance("held");
    u.tHeld.value = across.texture;
    u.uHeldOn.value = false;
    for (const part of bodies.parts) {
      if (!bodies.isHeld(part) || request.style(part) === "off") continue;
      const box = this.#boxOf(part, request, bodies);
      if (box === null) continue;
      for (const [pass, target] of [
        [this.#heldAlong, along],
        [this.#heldAcross, across],
      ] as const) {
        if (!u.uHeldOn.value) {
          target.scissorTest = false;
          this.#renderer.setRenderTarget(target);
          this.#renderer.setClearColor(0xffffff, 1);
          this.#renderer.clear();
        }
        target.scissorTest = true;
        target.scissor.set(box.x, box.y, box.width, box.height);
        pass.uniforms.tMark.value = u.tMark.value;
        pass.uniforms.tDepth.value = u.tDepth.value;
        pass.uniforms.tGlassMark.value = u.tGlassMark.value;
        pass.uniforms.tGlassDepth.value = u.tGlassDepth.value;
        pass.uniforms.tAlong.value = along.texture;
        pass.uniforms.uGlassOn.value = glassOn;
        pass.uniforms.uReach.value = Math.min(23, Math.ceil(5.6 * sampling.samples));
        pass.run(this.#renderer, target);
      }
      u.uHeldOn.value = true;
    }
  }

  /** The part's sphere in the picture with room for its outline, in samples; null: outside. */
  #boxOf(part: Part, { camera, targets, sampling }: PictureRequest, bodies: BodyLayer) {
    const { center, radius } = bodies.whereIs(part, new Sphere());
    const centre = center.applyMatrix4(camera.matrixWorldInverse);
    const near = -centre.z - radius;
    if (near + 2 * radius <= 0) return null;
    if (near <= camera.near) return { x: 0, y: 0, width: targets.width, height: targets.height };
    const p = camera.projectionMatrix.elements;
    const margin = 8 * sampling.samples;
    const side = (middle: number, reach: number, size: number): [number, number] => [
      Math.max(0, Math.floor((middle - reach) * size - margin)),
      Math.min(size, Math.ceil((middle + reach) * size + margin)),
    ];
    const x = ((centre.x * p[0]! + centre.z * p[8]!) / -centre.z) * 0.5 + 0.5;
    const y = ((centre.y * p[5]! + centre.z * p[9]!) / -centre.z) * 0.5 + 0.5;
    const [left, right] = side(x, (radius * p[0]!) / near / 2, targets.width);
    const [low, high] = side(y, (radius * p[5]!) / near / 2, targets.height);
    return right <= left || high <= low ? null : { x: left, y: low, width: right - left, height: high - low };
  }
}

/** mm that one CSS px spans where the cut's own point lies. */
function mmPerPx({ cut, camera, targets, sampling }: PictureRequest): number {
  if (cut === null) return 1;
  const depth = -new Vector3(...cut.at).applyMatrix4(camera.matrixWorldInverse).z;
  return (Math.max(depth, 1) * 2 * sampling.samples) / (camera.projectionMatrix.elements[5]! * targets.height);
}

function occlusionPass(samples: number) {
  return new ScreenPass(
    `occlusion-${samples}`,
    OCCLUSION_FRAGMENT,
    { tMark: texture(), tDepth: texture(), uReach: { value: 1 }, uProjection: { value: [] as number[] } },
    { defines: { SAMPLES: samples } },
  );
}

function heldPass(name: string, defines: Record<string, number>) {
  return new ScreenPass(
    name,
    HELD_FRAGMENT,
    {
      tMark: texture(),
      tDepth: texture(),
      tGlassMark: texture(),
      tGlassDepth: texture(),
      tAlong: texture(),
      uGlassOn: flag(),
      uReach: { value: 0 },
    },
    { defines },
  );
}

function compositePass() {
  const uniforms = {
    tColour: texture(),
    tMark: texture(),
    tDepth: texture(),
    tGlassMark: texture(),
    tGlassDepth: texture(),
    tGhostMark: texture(),
    tGhostDepth: texture(),
    tSweptColour: texture(),
    tSweptMark: texture(),
    tSweptDepth: texture(),
    uGhostsOn: flag(),
    uSweptOn: flag(),
    tBuriedColour: texture(),
    tBuriedMark: texture(),
    tOcclusion: texture(),
    tFloor: texture(),
    tHeld: texture(),
    uGlassOn: flag(),
    uBuriedOn: flag(),
    uOcclusionOn: flag(),
    uFloorOn: flag(),
    uDepthOut: flag(),
    uSamplesPerPx: { value: 1 },
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
    uHeldOn: flag(),
    uGlass: colour(),
    uGlassEdge: colour(),
    uGlassFill: { value: 0 },
    uOcclusionAmount: { value: 0 },
    uPatched: { value: new Array<number>(MOST_PATCHED).fill(0) },
    uProjection: { value: [] as number[] },
    uCameraWorld: { value: [] as number[] },
    uFloorArea: { value: new Vector4() },
    uFloorCentre: { value: new Vector2() },
  };
  return new ScreenPass("composite", COMPOSITE_FRAGMENT, uniforms, { depth: true, vertexShader: COMPOSITE_VERTEX });
}
