import type { Picture } from "../../../scene/setup/question.ts";
import type { Direction } from "../../points/usePointMove.ts";

export const VIEW_TITLES = { behind: "from behind", above: "from above, front up" } as const;

export const DIRECTION_LABELS: Readonly<Record<Direction, string>> = { forward: "forward", out: "out", up: "up" };

/** What the picture of a question shows, for those who do not see it. */
export const PICTURE_NAMES: Readonly<Record<Picture["of"], string>> = {
  corner: "The corner as it is so far, from behind and from above",
  place: "The corner as it is so far; arrows lead forward, out and up to the place that is asked for",
  tyre: "A tyre with its size on the sidewall",
  rim: "A rim cut through its middle, with the measure that is asked for",
  angle: "A wheel with the angle that is asked for",
  travel: "A wheel at ride height, raised and hanging",
  tube: "A tube with its diameter",
  box: "A box round the part, with the measure that is asked for",
  rock: "The powertrain turned about its line",
  damper: "A damper with the length that is asked for",
  shaft: "A driveshaft with the measure that is asked for",
  gap: "Two parts with the gap between them",
};
