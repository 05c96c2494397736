import { scale } from "../maths/vec3.ts";
import { InputError } from "../scene/error.ts";
import type { Alteration } from "../studies/moves/alter.ts";
import { findMoves, type Move, type MovesResult, type PricedAlteration } from "../studies/moves/moves.ts";
import { loadScene } from "./loadScene.ts";
import { withTravel } from "./narrow.ts";
import { numberOf } from "./numbers.ts";
import { fitOf, limitsOf, signed, tellOffset, tellPrice } from "./roomVerb.ts";
import type { OptionName, VerbOptions, VerbOutcome } from "./verb.ts";

export const MOVES_OPTIONS: readonly OptionName[] = [
  "travel",
  "pair",
  "point",
  "fit",
  "within",
  "travel-step",
  "toe-change",
  "camber",
  "half-track-change",
  "damper-ratio",
  "length",
];

/** As many of the smallest moves are checked in full. */
const PROVED = 3;

/** `moves`: the smallest moves that clear a pair or all, with their price. */
export async function runMoves(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const { document, meshFiles, name } = await loadScene(path);
  try {
    const result = findMoves({
      document: withTravel(document, options.travel),
      meshFiles,
      pair: options.pair ?? null,
      points: options.point ?? [],
      fits: options.fit === undefined ? ["cut", "bolted"] : [fitOf(options)],
      within_mm: numberOf("within", options.within, 25, 1),
      limits: limitsOf(options),
      travelStep_mm: numberOf("travel-step", options["travel-step"], 10, 0.1),
      proved: PROVED,
    });
    const status =
      [result.moves, result.alterations].some((found) => found.length > 0) || result.targets.length === 0 ? 0 : 1;
    return {
      output: options.json
        ? `${JSON.stringify({ study: "moves", scene: name, ...result })}\n`
        : tellMoves(name, result),
      status,
    };
  } catch (error) {
    throw error instanceof InputError ? error.in(path) : error;
  }
}

function tellMoves(name: string, { targets, leftOut, moves, alterations, thinner }: MovesResult): string {
  if (targets.length === 0) return `${name}: nothing clashes or is tight\n`;
  const lines = [
    `${name}: to clear ${targets.map(({ side, a, b, clearance_mm, required_mm }) => `${side} ${a} / ${b} (${clearance_mm.toFixed(1)} mm, ${required_mm} wanted)`).join(", ")}`,
    ...(leftOut.length > 0 ? [`not asked for: ${leftOut.join(", ")}`] : []),
    ...moves.map(tellMove),
    ...(moves.length === 0 ? ["no move of a point, nor of two, within the reach clears it"] : []),
    ...alterations.map(tellAlteration),
    ...thinner
      .filter(({ member }) => !alterations.some(({ alteration }) => isThinner(alteration, member)))
      .map(({ member, diameter_mm, was_mm }) => `${member} no thicker than ${diameter_mm.toFixed(1)} mm (${was_mm})`),
    "Geometry only, rigid parts: prove it by hand with the spring out, on stands.",
  ];
  return `${lines.join("\n")}\n`;
}

function tellMove({ moves, fit, way_mm, price }: Move): string {
  const what = moves.map(({ point, by }) => `${point} ${tellOffset(by)}`).join(" and ");
  return tellFound(way_mm, `${what}, ${fit === "cut" ? "cut to suit" : "bolted up"}`, price);
}

function tellAlteration({ alteration, way_mm, price }: PricedAlteration): string {
  return tellFound(way_mm, whatIsAltered(alteration), price);
}

function whatIsAltered(alteration: Alteration): string {
  switch (alteration.kind) {
    case "thinner":
      return `${alteration.member} no thicker than ${alteration.diameter_mm.toFixed(1)} mm (${alteration.was_mm}), made anew`;
    case "bent":
      return `${alteration.member} bent, stepping aside ${tellOffset(scale(alteration.toward, alteration.bow_mm))}, made anew`;
    case "shifted":
      return `powertrain ${tellOffset(alteration.by)}, ${shaftOf(alteration.fit)}`;
    case "turned":
      return `powertrain turned ${signed(alteration.by_deg, 2)}° (${TURN_WORDS[alteration.turn]}), ${shaftOf(alteration.fit)}`;
  }
}

/** + by the right hand. */
const TURN_WORDS = {
  roll: "about fore and aft, + lifts the left",
  tilt: "about crosswise, + lifts the tail",
  swing: "about upright, + takes the nose to the left",
} as const;

function shaftOf(fit: Move["fit"]): string {
  return fit === "cut" ? "driveshaft cut to suit" : "driveshaft as it is";
}

function isThinner(alteration: Alteration, member: string): boolean {
  return alteration.kind === "thinner" && alteration.member === member;
}

function tellFound(way_mm: number, what: string, price: Move["price"]): string {
  if (!price) return `${way_mm.toFixed(1)} mm: ${what}; not checked in full`;
  const open = price.open.map(({ side, a, b }) => `${side} ${a} / ${b}`);
  const rest = [...open, ...price.passed];
  return `${way_mm.toFixed(1)} mm: ${what}: ${tellPrice(price)}${rest.length > 0 ? `; still open: ${rest.join(", ")}` : ""}`;
}
