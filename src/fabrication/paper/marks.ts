/** A place on a page, mm to the right of and down from its upper left corner; of a pen, from the pen's own corner. */
export type Spot = readonly [right_mm: number, down_mm: number];

interface Stroke {
  readonly width_mm: number;
  readonly dash_mm?: readonly number[] | undefined;
  /** 0 black to 1 white. */
  readonly grey: number;
}

/** What stands on a page beside its PDF, for showing it before it is printed: the same places, sizes and order. */
export type Mark =
  | (Stroke & { readonly kind: "path"; readonly spots: readonly Spot[]; readonly closed: boolean })
  | (Stroke & { readonly kind: "circle"; readonly at: Spot; readonly radius_mm: number })
  | { readonly kind: "fill"; readonly outlines: readonly (readonly Spot[])[]; readonly grey: number }
  | {
      readonly kind: "text";
      readonly text: string;
      readonly at: Spot;
      readonly size_mm: number;
      /** How long the letters run in the font of the sheet. */
      readonly width_mm: number;
      readonly bold: boolean;
      readonly turn_deg: number;
      readonly grey: number;
    }
  | {
      readonly kind: "picture";
      readonly at: Spot;
      readonly width_mm: number;
      readonly height_mm: number;
      readonly bytes: Uint8Array;
      readonly type: "png" | "jpeg";
    }
  /** Marks cut off at the edges of a box. */
  | {
      readonly kind: "within";
      readonly at: Spot;
      readonly width_mm: number;
      readonly height_mm: number;
      readonly marks: readonly Mark[];
    };

export interface MarkedPage {
  readonly width_mm: number;
  readonly height_mm: number;
  readonly marks: readonly Mark[];
}
