import type { PairVerdict } from "../../check/result.ts";
import type { Vec3 } from "../../maths/vec3.ts";
import { listText } from "../text/formats.ts";
import { t } from "../text/text.ts";

/** Components smaller than this share of the whole are not worth a word. */
const WORTH_A_WORD = 0.38;

/** A direction in the car in the words of the trade, strongest first: "up and back". Outboard is away from the centre plane: a bare "in" after a number reads as inches. */
export function directionText(direction: Vec3, side: PairVerdict["side"]): string {
  const [x, y, z] = direction;
  const ways: [number, Way][] = [
    [x, x > 0 ? "forward" : "back"],
    [y, sideways(y, side)],
    [z, z > 0 ? "up" : "down"],
  ];
  const told = ways.filter(([size]) => Math.abs(size) >= WORTH_A_WORD).sort((a, b) => Math.abs(b[0]) - Math.abs(a[0]));
  return listText(told.map(([, way]) => t(`words.ways.${way}`)));
}

type Way = "forward" | "back" | "left" | "right" | "outboard" | "inboard" | "up" | "down";

function sideways(y: number, side: PairVerdict["side"]): Way {
  if (side === "both") return y > 0 ? "left" : "right";
  return y > 0 === (side === "left") ? "outboard" : "inboard";
}

/** From which side an eye in this direction looks: "above", "behind", "the left". */
export function eyeText(direction: Vec3): string {
  return t(`words.eye.${eyeOf(direction)}`);
}

function eyeOf([x, y, z]: Vec3): "ahead" | "behind" | "left" | "right" | "above" | "below" {
  const sizes = [Math.abs(x), Math.abs(y), Math.abs(z)];
  const largest = sizes.indexOf(Math.max(...sizes));
  if (largest === 0) return x > 0 ? "ahead" : "behind";
  if (largest === 1) return y > 0 ? "left" : "right";
  return z > 0 ? "above" : "below";
}
