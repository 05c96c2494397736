import { create } from "zustand";
import type { LengthAsked } from "../../fabrication/picture/dimensions.ts";
import type { ViewName } from "../../fabrication/picture/view.ts";

/** Where the wheels are in the picture. */
export const STANDS = ["shown", "ride", "bump", "droop", "worst"] as const;
export type Stand = (typeof STANDS)[number];

export const SIDES = ["both", "left", "right"] as const;
export const NEAR_GAPS = ["all", "worst", "none"] as const;
export const FINENESSES = ["draft", "print", "finest"] as const;
export const LIES = ["landscape", "portrait"] as const;

/** A length that was asked for, between two hard points of the left side or of both alike. */
export interface PointsLength {
  readonly from: string;
  readonly to: string;
  readonly along: LengthAsked["along"];
}

export interface PictureLook {
  readonly view: ViewName;
  readonly stand: Stand;
  readonly side: (typeof SIDES)[number];
  readonly nearGaps: (typeof NEAR_GAPS)[number];
  readonly hasMeasures: boolean;
  readonly lengths: readonly PointsLength[];
  /** Wheels as outlines; null: where they would hide what lies behind them. */
  readonly hasOutlinedWheels: boolean | null;
  /** Id of the part that fills the picture; null: all of them. */
  readonly around: string | null;
  /** The car's millimetres for one of the paper's; null: the largest that fits. */
  readonly ratio: number | null;
  readonly lies: (typeof LIES)[number];
  readonly fineness: (typeof FINENESSES)[number];
  readonly note: string;
}

/** Neither saved nor undone. */
export const usePictureLook = create<PictureLook>()(() => ({
  view: "rear",
  stand: "shown",
  side: "both",
  nearGaps: "all",
  hasMeasures: true,
  lengths: [],
  hasOutlinedWheels: null,
  around: null,
  ratio: null,
  lies: "landscape",
  fineness: "print",
  note: "",
}));
