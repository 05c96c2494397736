import { create } from "zustand";
import { app } from "../store/useApp.ts";
import type { Meaning } from "./pointInfo.ts";

interface PointsLook {
  /** Id of the datum that coordinates are read from; null: ground, centre plane, axle line. */
  readonly datumId: string | null;
  /** What a move means, as the builder last chose; null: what is usual for the point. */
  readonly meaning: Meaning | null;
  /** What the fields of the held point hold. */
  readonly typed: "place" | "step";
  readonly list: "points" | "parts" | "sides" | "car";
  /** Whether the table of all points stands open below the view. */
  readonly tableOpen: boolean;
  /** Fields that hold what is no length. */
  readonly troubled: ReadonlySet<string>;
  /** Counts what makes nonsense in a field moot: a move kept or put back, a step undone, another point held. */
  readonly letGo: number;
}

/** How the builder looks at points; neither saved nor undone. */
export const usePointsLook = create<PointsLook>()(() => ({
  datumId: null,
  meaning: null,
  typed: "place",
  list: "points",
  tableOpen: false,
  troubled: new Set(),
  letGo: 0,
}));

export function setTroubled(field: string, isTroubled: boolean): void {
  const { troubled } = usePointsLook.getState();
  if (troubled.has(field) === isTroubled) return;
  const next = new Set(troubled);
  if (isTroubled) next.add(field);
  else next.delete(field);
  usePointsLook.setState({ troubled: next });
}

/** Nonsense in every field makes way for the value. */
export function forgetNonsense(): void {
  usePointsLook.setState({ letGo: usePointsLook.getState().letGo + 1 });
}

app.subscribe((state, before) => {
  const isPutBack = before.tried !== null && state.tried === null;
  if (isPutBack || state.document !== before.document || state.heldPoint !== before.heldPoint) forgetNonsense();
});
