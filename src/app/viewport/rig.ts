import type { Vec3 } from "../../maths/vec3.ts";
import { type CameraPlace, mixedPlace, orbited, panned, standDirection, zoomed } from "./cameraPlace.ts";

const EASE_MS = 160;

/** The moving camera: where it is, and where it is going. Times are milliseconds of one clock. */
export class CameraRig {
  place: CameraPlace = { target: [0, 0, 400], ...standDirection("behind"), distance_mm: 5000 };
  #from: CameraPlace | null = null;
  #to: CameraPlace | null = null;
  #start_ms = 0;

  get easing(): boolean {
    return this.#to !== null;
  }

  /** Where the camera will come to rest. */
  get goal(): CameraPlace {
    return this.#to ?? this.place;
  }

  moveTo(place: CameraPlace, now_ms: number, atOnce: boolean): void {
    if (atOnce) {
      this.stop();
      this.place = place;
      return;
    }
    this.#from = this.place;
    this.#to = place;
    this.#start_ms = now_ms;
  }

  /** Brings the place to the given time. */
  advance(now_ms: number): void {
    if (this.#from === null || this.#to === null) return;
    const t = Math.min(1, Math.max(0, (now_ms - this.#start_ms) / EASE_MS));
    this.place = t === 1 ? this.#to : mixedPlace(this.#from, this.#to, 1 - (1 - t) ** 3);
    if (t === 1) this.stop();
  }

  stop(): void {
    this.#from = null;
    this.#to = null;
  }

  orbit(pivot: Vec3, azimuth_rad: number, elevation_rad: number): void {
    this.stop();
    this.place = orbited(this.place, pivot, azimuth_rad, elevation_rad);
  }

  zoom(pivot: Vec3, factor: number): void {
    this.stop();
    this.place = zoomed(this.place, pivot, factor);
  }

  pan(right_mm: number, up_mm: number): void {
    this.stop();
    this.place = panned(this.place, right_mm, up_mm);
  }
}
