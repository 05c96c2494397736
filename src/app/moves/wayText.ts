import type { Vec3 } from "../../maths/vec3.ts";
import { moveWords } from "../points/moveWords.ts";
import type { Unit } from "../store/state.ts";

/** A tenth of a millimetre is told: what rounds to nothing of it is left out. */
const TOLD_mm = 0.05;

/** "12 back, 4 up" of a move that a study found, car directions of the left side. */
export function wayText(by: Vec3, unit: Unit): string {
  const told = by.map((value) => (Math.abs(value) < TOLD_mm ? 0 : value)) as unknown as Vec3;
  return moveWords([0, 0, 0], told, null, unit).way;
}
