import { type PerspectiveCamera, type WebGLRenderer, WebGLRenderTarget } from "three";
import type { Vec3 } from "../../maths/vec3.ts";
import type { Stand, Theme } from "../store/state.ts";
import { t } from "../text/text.ts";
import { type Inset, NO_INSET, type PictureSize } from "./framing.ts";
import { type ProjectedPoint, projected } from "./marks.ts";
import type { Focus } from "./picture.ts";
import type { Sampling } from "./quality.ts";
import { Targets } from "./targets.ts";

export interface SnapshotOptions {
  /** Left out: the theme on the screen. */
  readonly theme?: Theme;
  /** Pure white behind the car, for paper. */
  readonly white?: boolean;
  /** Pixels of the picture per unit of the asked width and height; 2 where left out. */
  readonly pixelRatio?: number;
  /** Left out: as the builder looks at it now. */
  readonly view?: Stand | Focus;
  /** Ids of the bodies that stay solid; all others turn to glass. Left out: as shown. */
  readonly only?: ReadonlySet<string>;
  /** Draws over the picture, in units of the asked width and height; `spots` tells where points of the car are in it. */
  readonly over?: (context: CanvasRenderingContext2D, spots: (points: readonly Vec3[]) => ProjectedPoint[]) => void;
  /** Line width against the screen's: below 1 for small pictures. */
  readonly inkScale?: number;
}

/** Samples along one side of a picture's pixel. */
const SAMPLES = 2;

/** Draws one picture of its own size, beside the one on the screen, and packs it as PNG; `draw` tells by which camera. */
export async function takeSnapshot(
  renderer: WebGLRenderer,
  width: number,
  height: number,
  options: SnapshotOptions,
  draw: (
    size: PictureSize,
    inset: Inset,
    sampling: Sampling,
    targets: Targets,
    output: WebGLRenderTarget,
  ) => PerspectiveCamera,
): Promise<Blob> {
  const ratio = options.pixelRatio ?? 2;
  const [w, h] = [Math.round(width * ratio), Math.round(height * ratio)];
  const targets = new Targets(w * SAMPLES, h * SAMPLES);
  const output = new WebGLRenderTarget(w, h);
  const bytes = new Uint8ClampedArray(w * h * 4);
  let camera: PerspectiveCamera;
  try {
    camera = draw({ width, height }, NO_INSET, { samples: SAMPLES * ratio, pixels: ratio }, targets, output);
    renderer.readRenderTargetPixels(output, 0, 0, w, h, bytes);
  } finally {
    targets.dispose();
    output.dispose();
  }
  const canvas = document.createElement("canvas");
  canvas.width = w;
  canvas.height = h;
  const context = canvas.getContext("2d");
  if (context === null) throw new Error(t("card.trouble.noPicture"));
  context.putImageData(new ImageData(upsideDown(bytes, w, h), w, h), 0, 0);
  context.scale(ratio, ratio);
  options.over?.(context, (points) => projected(points, camera, { width, height }));
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => (blob === null ? reject(new Error(t("card.trouble.noPicture"))) : resolve(blob)));
  });
}

/** WebGL's rows run upwards, a picture's downwards. */
function upsideDown(bytes: Uint8ClampedArray, width: number, height: number): Uint8ClampedArray<ArrayBuffer> {
  const out = new Uint8ClampedArray(bytes.length);
  const row = width * 4;
  for (let y = 0; y < height; y++) out.set(bytes.subarray(y * row, (y + 1) * row), (height - 1 - y) * row);
  return out;
}
