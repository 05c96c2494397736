import type { WebGLRenderer } from "three";
import type { ModelBody, PartGroup } from "../../check/model.ts";
import type { Pose } from "../../maths/pose.ts";
import type { Vec3 } from "../../maths/vec3.ts";
import type { Show, Stand, Theme } from "../store/state.ts";
import { type Part, styleByGroup } from "./bodyLayer.ts";
import { type CameraPlace, cameraFrame, directionAngles, LENS_DEG, standDirection } from "./cameraPlace.ts";
import { carExtent } from "./carExtent.ts";
import type { Cut } from "./cut.ts";
import { FrameClock } from "./frameClock.ts";
import { FrameMaker, heldCamera, type Look } from "./frameMaker.ts";
import { framed, freeArea, type Inset, NO_INSET, type PictureSize } from "./framing.ts";
import type { Ghost } from "./ghostLayer.ts";
import { aim, type Reach } from "./lens.ts";
import { Marks } from "./marks.ts";
import { sharedUniforms } from "./materials.ts";
import type { ShownPatch } from "./patchLayer.ts";
import { Picker } from "./picker.ts";
import { PictureLayers } from "./pictureLayers.ts";
import type { ShownPlaces } from "./placeLayer.ts";
import { type Quality, QualityGovernor } from "./quality.ts";
import { CameraRig } from "./rig.ts";
import type { SecondViews } from "./secondView.ts";
import { type Sight, sightOf } from "./sight.ts";
import type { SnapshotOptions } from "./snapshot.ts";
import type { SweptSurface } from "./sweptLayer.ts";
import { isSoftware } from "./webgl.ts";

export type { ProjectedPoint } from "./marks.ts";

/** Something to look at more closely than a stand: a place, how much of the car to show round it, from where. */
export interface Focus {
  readonly at: Vec3;
  readonly span_mm: number;
  /** From the place to the eye; left out: the direction stays. */
  readonly from?: Vec3;
}

/** A slow machine draws second pictures no more often than this while something moves. */
const SECONDS_EVERY_MS = 250;

/** The 3D picture of the car: what is shown, from where, and when it is drawn. Knows no React. */
export class Picture {
  readonly rig = new CameraRig();
  readonly camera = heldCamera();
  readonly marks = new Marks();
  /** Asked before each frame whether things are to be drawn over the car (with its depth). */
  drawOver: (() => void) | null = null;

  readonly #wantFrame: () => void;
  readonly #seconds: SecondViews;
  readonly #layers: PictureLayers;
  readonly #frames: FrameMaker;
  readonly #picker: Picker;
  readonly #clock: FrameClock;
  readonly #governor: QualityGovernor;
  #size: PictureSize = { width: 1, height: 1 };
  #dpr = 1;
  #inset: Inset = NO_INSET;
  #theme: Theme = "daylight";
  #style: (part: Part) => Show = () => "solid";
  #stand: Stand | null = null;
  #reach: Reach = { centre: [0, 0, 300], radius_mm: 3000 };
  #framePoints: readonly Vec3[] = [];
  #shadowStale = true;
  #moving = false;
  #waiting = false;
  #stillTimer = 0;
  #secondsDrawn_ms = 0;
  #clean: { quality: Quality } | null = null;
  #cut: Cut | null = null;
  #poses: ReadonlyMap<string, Pose> | null = null;

  constructor(renderer: WebGLRenderer, wantFrame: () => void, seconds: SecondViews) {
    this.#wantFrame = wantFrame;
    this.#seconds = seconds;
    seconds.onWanted = () => this.#changed();
    renderer.autoClear = false;
    const shared = sharedUniforms();
    this.#layers = new PictureLayers(shared);
    this.#frames = new FrameMaker(renderer, shared, this.#layers);
    this.#picker = new Picker(renderer);
    const gl = renderer.getContext() as WebGL2RenderingContext;
    this.#clock = new FrameClock(gl);
    this.#governor = new QualityGovernor(isSoftware(gl));
  }

  setBodies(bodies: readonly ModelBody[]): void {
    const wasEmpty = this.#layers.bodies.parts.length === 0;
    this.#layers.setBodies(bodies);
    const { reach, points } = carExtent(this.#layers.bodies.parts);
    this.#reach = reach;
    this.#framePoints = points;
    if (wasEmpty && this.#stand !== null) this.frame(this.#stand, true);
    this.#carChanged();
  }

  setPoses(poses: ReadonlyMap<string, Pose>): void {
    // they may have been set before what else shows them came along
    if (poses === this.#poses) return;
    this.#poses = poses;
    this.#layers.setPoses(poses);
    this.#carChanged();
  }

  setShow(
    show: Readonly<Record<PartGroup, Show>>,
    glassKeys: ReadonlySet<string>,
    touchKeys: ReadonlySet<string>,
  ): void {
    this.#style = styleByGroup(show, glassKeys, touchKeys);
    this.#carChanged();
  }

  setHeld(ids: ReadonlySet<string>): void {
    this.#layers.bodies.setHeld(ids);
    this.#seconds.spoil();
    this.#changed();
  }

  setPatches(patches: readonly ShownPatch[]): void {
    this.#layers.patches.setPatches(patches);
    this.#layers.patches.follow(this.#layers.bodies);
    this.#seconds.spoil();
    this.#changed();
  }

  setCrossing(crossing: readonly Float32Array[]): void {
    this.#layers.patches.setCrossing(crossing);
    this.#seconds.spoil();
    this.#changed();
  }

  /** null: nothing is cut away. */
  setCut(cut: Cut | null): void {
    this.#cut = cut;
    this.#layers.setCut(cut !== null);
    this.#seconds.spoil();
    this.moved();
  }

  setGhosts(ghosts: readonly Ghost[]): void {
    this.#layers.ghosts.setGhosts(ghosts, this.#layers.bodies);
    this.#seconds.spoil();
    this.moved();
  }

  setSwept(surfaces: readonly SweptSurface[]): void {
    this.#layers.swept.setSurfaces(surfaces);
    this.#layers.swept.follow(this.#layers.bodies);
    this.#seconds.spoil();
    this.#changed();
  }

  /** null: no cloud of places. */
  setPlaces(places: ShownPlaces | null): void {
    this.#layers.places.setPlaces(places);
    this.#seconds.spoil();
    this.#changed();
  }

  setTheme(theme: Theme): void {
    this.#theme = theme;
    this.#seconds.spoil();
    this.#changed();
  }

  setMarks(points: readonly Vec3[]): void {
    this.marks.points = points;
    this.marks.project(this.camera, this.#size);
  }

  setSize(size: PictureSize, dpr: number): void {
    if (size.width === this.#size.width && size.height === this.#size.height && dpr === this.#dpr) return;
    this.#size = size;
    this.#dpr = dpr;
    this.#governor.reset();
    this.#frames.dropTargets();
    if (this.#stand !== null) this.frame(this.#stand, true);
    this.#changed();
  }

  setInset(inset: Inset): void {
    const before = this.#inset;
    if (
      inset.top === before.top &&
      inset.right === before.right &&
      inset.bottom === before.bottom &&
      inset.left === before.left
    ) {
      return;
    }
    this.#inset = inset;
    if (this.#stand !== null) this.frame(this.#stand, false);
    this.#changed();
  }

  /** null leaves the camera where it is. */
  setStand(stand: Stand | null, atOnce: boolean): void {
    this.#stand = stand;
    if (stand !== null) this.frame(stand, atOnce);
  }

  frame(view: Stand | Focus, atOnce: boolean): void {
    this.#stand = typeof view === "string" ? view : null;
    const place = this.placeOf(view, this.#size, this.#inset);
    if (place === null) return;
    this.rig.moveTo(place, performance.now(), atOnce || prefersStillness());
    this.moved();
  }

  placeOf(view: Stand | Focus, size: PictureSize, inset: Inset): CameraPlace | null {
    const lens = (LENS_DEG * Math.PI) / 180;
    if (typeof view === "string") return framed(this.#framePoints, standDirection(view), size, inset, lens);
    const angles = view.from === undefined ? this.rig.goal : directionAngles(view.from);
    const free = freeArea(size, inset);
    const share = Math.min(free.width, free.height) / size.height;
    return {
      target: view.at,
      azimuth_rad: angles.azimuth_rad,
      elevation_rad: angles.elevation_rad,
      distance_mm: view.span_mm / share / (2 * Math.tan(lens / 2)),
    };
  }

  /** The camera was moved by hand or goes by itself. */
  moved(): void {
    this.#moving = true;
    this.#changed();
  }

  /** mm that one CSS px spans at the depth of `point`. */
  mmPerPx(point: Vec3): number {
    const { back, eye } = cameraFrame(this.rig.place);
    const depth = back[0] * (eye[0] - point[0]) + back[1] * (eye[1] - point[1]) + back[2] * (eye[2] - point[2]);
    return (Math.max(depth, 1) * 2 * Math.tan((LENS_DEG * Math.PI) / 360)) / this.#size.height;
  }

  /** What is seen where, as it was last drawn. */
  sight(): Sight {
    return sightOf(this.camera, this.#size, (p) => this.mmPerPx(p), cameraFrame(this.rig.place).back);
  }

  /** The point of the plane through what is looked at that lies under a place of the picture, CSS px from its upper left. */
  underPointer(x: number, y: number): Vec3 {
    const { target } = this.rig.place;
    const { right, up } = cameraFrame(this.rig.place);
    const scale = this.mmPerPx(target);
    const shift = freeArea(this.#size, this.#inset);
    const dx = (x - this.#size.width / 2 - shift.x) * scale;
    const dy = (this.#size.height / 2 - y - shift.y) * scale;
    return [0, 1, 2].map((i) => target[i]! + right[i]! * dx + up[i]! * dy) as unknown as Vec3;
  }

  /** What lies there: solid parts first, glass where there is no solid one. */
  pick(x: number, y: number): { readonly body: ModelBody; readonly at: Vec3 } | null {
    const targets = this.#frames.lastTargets;
    if (targets === null) return null;
    const [u, v] = [x / this.#size.width, 1 - y / this.#size.height];
    for (const layer of ["solid", "glass"] as const) {
      if (layer === "glass" && !this.#layers.bodies.parts.some((part) => this.#style(part) === "glass")) continue;
      const hit = this.#picker.pick(layer, targets, this.camera, u, v, this.#size);
      const part = hit === null ? undefined : this.#layers.bodies.partNumbered(hit.number);
      if (hit !== null && part !== undefined) return { body: part.body, at: hit.at };
    }
    return null;
  }

  get hasBodies(): boolean {
    return this.#layers.bodies.parts.length > 0;
  }

  /** One frame, from the loop. Nothing is drawn while the machine is still at the last one: it would only lag behind the hand. */
  draw(): void {
    if (this.#clock.busy) {
      this.#waiting = true;
      return;
    }
    const now = performance.now();
    this.rig.advance(now);
    const moving = this.#moving;
    const quality = moving ? this.#governor.moving : this.#governor.still;
    const easing = this.rig.easing;
    this.#clock.start(now);
    this.#aim();
    if (this.#shadowStale && (quality > 0 || !moving)) {
      this.#frames.floor(this.#look);
      this.#shadowStale = false;
    }
    // a slow machine follows a movement with the main picture first
    if (quality > 0 || !moving || now - this.#secondsDrawn_ms > SECONDS_EVERY_MS) {
      this.#seconds.drawStale((spec, canvas) => this.#frames.second(this.#look, spec, canvas, quality));
      this.#secondsDrawn_ms = now;
    }
    this.#frames.main(this.#look, this.camera, this.#size, quality, this.drawOver !== null);
    this.drawOver?.();
    this.marks.project(this.camera, this.#size);
    this.#clean = { quality };
    this.#clock.end((ms) => this.#frameDone(ms, quality, moving));
    if (easing) this.#wantFrame();
    else if (moving) this.#restSoon();
  }

  snapshot(width: number, height: number, options: SnapshotOptions): Promise<Blob> {
    const placeOf = (size: PictureSize, inset: Inset): CameraPlace =>
      (options.view === undefined ? null : this.placeOf(options.view, size, inset)) ?? this.rig.goal;
    return this.#frames.snapshot(this.#look, width, height, options, placeOf);
  }

  /** After a lost context came back: all that lived on the GPU is made again at the next frame. */
  restored(): void {
    this.#clock.forget();
    this.#frames.forgetTargets();
    this.#governor.reset();
    this.#carChanged();
  }

  dispose(): void {
    window.clearTimeout(this.#stillTimer);
    this.#clock.stop();
    this.#frames.dispose();
    this.#layers.dispose();
    this.#picker.dispose();
    this.#seconds.onWanted = () => {};
  }

  get #look(): Look {
    return { theme: this.#theme, style: this.#style, cut: this.#cut, reach: this.#reach, dpr: this.#dpr };
  }

  #carChanged(): void {
    this.#shadowStale = true;
    this.#seconds.spoil();
    this.moved();
  }

  #changed(): void {
    this.#clean = null;
    this.#wantFrame();
  }

  #frameDone(ms: number, quality: Quality, moving: boolean): void {
    this.#governor.note(ms, quality, moving);
    if (!this.#waiting) return;
    this.#waiting = false;
    this.#wantFrame();
  }

  /** After the last movement the picture is drawn once more, as finely as the machine can. */
  #restSoon(): void {
    window.clearTimeout(this.#stillTimer);
    this.#stillTimer = window.setTimeout(() => {
      this.#moving = false;
      const best = this.#clean?.quality === this.#governor.still && !this.#shadowStale && !this.#seconds.anyStale;
      if (!best) this.#wantFrame();
    }, this.#governor.restAfter_ms);
  }

  #aim(): void {
    aim(this.camera, this.rig.place, this.#size, LENS_DEG, freeArea(this.#size, this.#inset), this.#reach);
  }
}

function prefersStillness(): boolean {
  return window.matchMedia("(prefers-reduced-motion: reduce)").matches;
}
