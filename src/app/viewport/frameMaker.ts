import { PerspectiveCamera, type WebGLRenderer } from "three";
import type { Show, Theme } from "../store/state.ts";
import type { Part } from "./bodyLayer.ts";
import { type CameraPlace, LENS_DEG } from "./cameraPlace.ts";
import { closeLookStyle, secondPlace } from "./closeLookStyle.ts";
import type { Cut } from "./cut.ts";
import { freeArea, type Inset, type PictureSize } from "./framing.ts";
import { aim, type Reach } from "./lens.ts";
import type { SharedUniforms } from "./materials.ts";
import { Passes } from "./passes.ts";
import type { PictureLayers } from "./pictureLayers.ts";
import { type Quality, sampling } from "./quality.ts";
import type { SecondViewSpec } from "./secondView.ts";
import { type SnapshotOptions, takeSnapshot } from "./snapshot.ts";
import { TargetPool, type Targets } from "./targets.ts";

/** How the car is shown, whichever picture is made of it. */
export interface Look {
  readonly theme: Theme;
  readonly style: (part: Part) => Show;
  readonly cut: Cut | null;
  readonly reach: Reach;
  readonly dpr: number;
}

/** Makes the frames of the main picture, of second views and of snapshots, from the same layers. */
export class FrameMaker {
  /** Of the main picture's last frame; null after they were dropped. */
  lastTargets: Targets | null = null;
  readonly #renderer: WebGLRenderer;
  readonly #layers: PictureLayers;
  readonly #passes: Passes;
  readonly #targets = new TargetPool();
  readonly #secondCamera = heldCamera();

  constructor(renderer: WebGLRenderer, shared: SharedUniforms, layers: PictureLayers) {
    this.#renderer = renderer;
    this.#layers = layers;
    this.#passes = new Passes(renderer, shared);
  }

  floor({ style }: Look): void {
    this.#layers.floor.draw(this.#renderer, this.#layers.bodies, (part) => style(part) !== "off");
  }

  main(
    look: Look,
    camera: PerspectiveCamera,
    { width, height }: PictureSize,
    quality: Quality,
    depthOut: boolean,
  ): void {
    const wanted = sampling(quality, look.dpr);
    const targets = this.#targets.get("main", width * wanted.samples, height * wanted.samples);
    this.lastTargets = targets;
    this.#renderer.setRenderTarget(null);
    this.#renderer.setViewport(0, 0, width, height);
    this.#passes.draw(
      {
        camera,
        targets,
        theme: look.theme,
        quality,
        sampling: wanted,
        outputPerPx: look.dpr,
        inkScale: 1,
        white: false,
        floor: true,
        style: look.style,
        cut: look.cut,
        overlays: true,
        output: null,
        depthOut,
      },
      this.#layers,
    );
  }

  /** Drawn in a corner of the main canvas, copied from there, and drawn over by the main picture before it is seen. */
  second(look: Look, spec: SecondViewSpec, canvas: HTMLCanvasElement, quality: Quality): void {
    const whole = this.#renderer.domElement;
    const scale = Math.min(look.dpr, whole.width / spec.width, whole.height / spec.height);
    const [width, height] = [Math.round(spec.width * scale), Math.round(spec.height * scale)];
    if (width < 1 || height < 1) return;
    const wanted = { ...sampling(quality, look.dpr), pixels: scale };
    const use = `second-${width}x${height}`;
    const targets = this.#targets.get(use, spec.width * wanted.samples, spec.height * wanted.samples);
    const { place, lens_deg, nearest_mm } = secondPlace(spec);
    aim(this.#secondCamera, place, spec, lens_deg, { x: 0, y: 0 }, look.reach, nearest_mm);
    const ratio = this.#renderer.getPixelRatio();
    this.#renderer.setRenderTarget(null);
    this.#renderer.setViewport(0, 0, width / ratio, height / ratio);
    const isCloseLook = spec.pair !== null;
    this.#passes.draw(
      {
        camera: this.#secondCamera,
        targets,
        theme: look.theme,
        quality,
        sampling: wanted,
        outputPerPx: scale,
        inkScale: isCloseLook ? 1.1 : Math.min(1, Math.max(0.6, spec.height / 450)),
        white: false,
        floor: !isCloseLook,
        style: closeLookStyle(spec, this.#layers.bodies, look.style),
        // a touch that is cut away is still to be seen from close by
        cut: isCloseLook ? null : look.cut,
        overlays: !isCloseLook,
        output: null,
        depthOut: false,
      },
      this.#layers,
    );
    if (canvas.width !== width) canvas.width = width;
    if (canvas.height !== height) canvas.height = height;
    canvas.getContext("2d")?.drawImage(whole, 0, whole.height - height, width, height, 0, 0, width, height);
  }

  /** `placeOf`: where the camera stands for a picture of this size. */
  snapshot(
    look: Look,
    width: number,
    height: number,
    options: SnapshotOptions,
    placeOf: (size: PictureSize, inset: Inset) => CameraPlace,
  ): Promise<Blob> {
    return takeSnapshot(this.#renderer, width, height, options, (size, inset, wanted, targets, output) => {
      const camera = heldCamera();
      aim(camera, placeOf(size, inset), size, LENS_DEG, freeArea(size, inset), look.reach);
      const { only } = options;
      this.floor(look);
      this.#passes.draw(
        {
          camera,
          targets,
          theme: options.theme ?? look.theme,
          quality: 2,
          sampling: wanted,
          outputPerPx: wanted.pixels,
          inkScale: options.inkScale ?? 1,
          white: options.white ?? false,
          floor: true,
          style: (part) => {
            const own = look.style(part);
            return only === undefined || only.has(part.body.id) || own === "off" ? own : "glass";
          },
          cut: only === undefined ? look.cut : null,
          overlays: only === undefined,
          output,
          depthOut: false,
        },
        this.#layers,
      );
      this.#renderer.setRenderTarget(null);
      return camera;
    });
  }

  /** After a lost context came back. */
  forgetTargets(): void {
    this.#targets.forget();
    this.lastTargets = null;
  }

  dropTargets(): void {
    this.#targets.dispose();
    this.lastTargets = null;
  }

  dispose(): void {
    this.dropTargets();
    this.#passes.dispose();
  }
}

/** A camera that is placed by hand (lens.ts). */
export function heldCamera(): PerspectiveCamera {
  const camera = new PerspectiveCamera();
  camera.matrixAutoUpdate = false;
  camera.matrixWorldAutoUpdate = false;
  return camera;
}
