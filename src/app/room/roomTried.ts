import { distance } from "../../maths/vec3.ts";
import type { AppState } from "../store/state.ts";
import type { RoomRun } from "./roomStore.ts";
import { gridOf } from "./roomTold.ts";

/** Whether what is tried is the run's points in that place. */
export function isTriedThere(
  { tried, triedEdit }: Pick<AppState, "tried" | "triedEdit">,
  run: RoomRun,
  place: number,
): boolean {
  const { points } = run.question;
  const grid = gridOf(run.question);
  const to = grid.offsetOf(place).map((by, k) => by + run.base[k]!) as unknown as typeof run.base;
  if (points.length === 1) return tried !== null && tried.point === points[0] && distance(tried.to, to) < 1e-6;
  return triedEdit?.part === partOf(run, place);
}

/** The tried edit of two points names the place too. */
export function partOf({ question }: RoomRun, place: number): string {
  return `${question.points.join("+")} ${place}`;
}
