import type { ModelBody } from "../../check/model.ts";
import type { Pose } from "../../maths/pose.ts";
import { BodyLayer } from "./bodyLayer.ts";
import { FloorShadow } from "./floorShadow.ts";
import { GhostLayer } from "./ghostLayer.ts";
import type { SharedUniforms } from "./materials.ts";
import { PatchLayer } from "./patchLayer.ts";
import { PlaceLayer } from "./placeLayer.ts";
import { SweptLayer } from "./sweptLayer.ts";

/** What a picture is drawn of: the parts, and what rides on them. */
export class PictureLayers {
  readonly bodies: BodyLayer;
  readonly patches: PatchLayer;
  readonly ghosts: GhostLayer;
  readonly swept: SweptLayer;
  readonly places = new PlaceLayer();
  readonly floor = new FloorShadow();

  constructor(shared: SharedUniforms) {
    this.bodies = new BodyLayer(shared);
    this.patches = new PatchLayer(shared);
    this.ghosts = new GhostLayer(shared);
    this.swept = new SweptLayer(shared);
  }

  setBodies(bodies: readonly ModelBody[]): void {
    this.bodies.setBodies(bodies);
    this.ghosts.follow(this.bodies);
    this.#ride();
  }

  setPoses(poses: ReadonlyMap<string, Pose>): void {
    this.bodies.setPoses(poses);
    this.#ride();
  }

  setCut(isCut: boolean): void {
    for (const layer of [this.bodies, this.patches, this.ghosts, this.swept]) layer.setCut(isCut);
  }

  dispose(): void {
    for (const layer of [this.ghosts, this.swept, this.bodies, this.patches, this.places, this.floor]) layer.dispose();
  }

  #ride(): void {
    this.patches.follow(this.bodies);
    this.swept.follow(this.bodies);
  }
}
