import { create } from "zustand";
import type { Side } from "../../../scene/scene.ts";

interface TapeLook {
  /** The point that is being placed by tape, and on which side of the car; null: the dialog is closed. */
  readonly placing: { readonly point: string; readonly side: Side } | null;
}

export const useTape = create<TapeLook>()(() => ({ placing: null }));

export function placeByTape(point: string, side: Side): void {
  useTape.setState({ placing: { point, side } });
}
