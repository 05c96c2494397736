import type { Solid } from "../geometry/solid.ts";
import type { Side } from "../scene/scene.ts";

/** Where parts are told apart for the eye: by what they ride on. */
export type PartGroup = "chassis" | "powertrain" | "hub" | "arms";

/** One rigid body of the checked model, in its design position on its own side of the car (car coordinates, mm). */
export interface ModelBody {
  /** Unique in the model, e.g. "upper@left", "sump", "spring#upper@right". */
  readonly key: string;
  /** The id that is reported; several bodies may share it (the two halves of a spring, both sides). */
  readonly id: string;
  /** "both": stands once in the car. Corner bodies and mirrored brackets have a side. */
  readonly side: Side | "both";
  /** Whose pose it takes: chassis | powertrain | carrier | a member's id | damper-upper | damper-lower | driveshaft | bar | bar-link. */
  readonly mount: string;
  readonly group: PartGroup;
  readonly role: string | null;
  /** What the eye should see instead of the checked solid (a coil in place of its envelope); null: the solid itself. */
  readonly look: "tyre" | "coil" | null;
  readonly solid: Solid;
  /** The surface of the part is nowhere farther than this from the solid's: scans that are checked welded or thinned out. */
  readonly within_mm?: number;
  /** Any place of it may be pushed off so far, whichever way, as what it rides on gives. */
  readonly give_mm?: number;
  /** Equal content means an equal solid. */
  readonly content: string;
}
