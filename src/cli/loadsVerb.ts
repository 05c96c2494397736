import { USUAL_CASES } from "../loads/cases.ts";
import { type LoadedAt, type LoadsRun, runLoads, type SideLoads } from "../loads/runLoads.ts";
import type { ScreenRow, UnknownRow } from "../loads/screen/finding.ts";
import { materialOf } from "../loads/screen/materials.ts";
import { NOT_COVERED, SCREENING_CAUTION, screen } from "../loads/screen/screen.ts";
import { NOTES, tellFormula, tellMissing, tellSource } from "../loads/screen/tell.ts";
import { type LoadKind, type WorstLoad, worstLoads } from "../loads/worst.ts";
import { InputError } from "../scene/error.ts";
import type { MaterialRecord } from "../scene/loadRecords.ts";
import { resolveScene } from "../scene/resolve.ts";
import { loadScene } from "./loadScene.ts";
import { withTravel } from "./narrow.ts";
import { tellTravel } from "./tellState.ts";
import type { VerbOptions, VerbOutcome } from "./verb.ts";

/** What the figures stand on; printed with them. */
const ASSUMPTIONS = [
  "Static and rigid: each part in equilibrium by itself, the road's force at the ground point in car axes, no inertia, no weight of the parts themselves.",
  "Two bushes on one line share the thrust along it equally: equilibrium gives only their sum. Legs of a wishbone as a triangle pinned at its corners.",
  "Driveshaft joints run true (constant velocity) and plunge without friction; a wheel that spins free takes its torque by its own inertia; damper, spring and stop are one force along the damper.",
  "The anti-roll bar does nothing unless a case tells a roll.",
] as const;

/** `loads`: forces in every part under every case over the whole travel, and what the scene gives sizes for screened. */
export async function runLoadsVerb(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const { name, document } = await loadScene(path);
  try {
    const scene = resolveScene(withTravel(document, options.travel), path);
    const run = runLoads(scene, options.pose);
    const screening = screen(scene, run);
    const rows = screening.rows.map((row) => inWords(row, scene.loads.materials));
    const unknown = screening.unknown.map(({ part, missing }) => ({ part, missing: missing.map(tellMissing) }));
    const isBelow = rows.some(({ verdict }) => verdict === "below target");
    return {
      output: options.json
        ? `${JSON.stringify(contractOf(name, run, rows, unknown))}\n`
        : tell(name, run, rows, unknown),
      status: isBelow ? 1 : 0,
    };
  } catch (error) {
    throw error instanceof InputError ? error.in(path) : error;
  }
}

type ToldRow = ReturnType<typeof inWords>;

interface ToldUnknown {
  readonly part: UnknownRow["part"];
  readonly missing: readonly string[];
}

/** A row with its codes in words; each material with its source. */
function inWords({ told, governedBy, ...row }: ScreenRow, own: readonly MaterialRecord[]) {
  const { material } = row.inputs;
  const source = typeof material === "string" ? materialOf(material, own)?.source : undefined;
  return {
    ...row,
    formula: tellFormula({ ...row, governedBy }),
    source: tellSource({ ...row, told }),
    inputs: source === undefined ? row.inputs : { ...row.inputs, material: `${material} (${source})` },
    notes: row.notes.map((note) => NOTES[note]),
  };
}

function contractOf(scene: string, run: LoadsRun, rows: readonly ToldRow[], unknown: readonly ToldUnknown[]) {
  const sides = run.sides.map(({ side, static_N, cases, states, bindsAt_mm, withoutLever_mm }) => [
    side,
    {
      static_N,
      cases,
      bindsAt_mm,
      withoutLever_mm,
      worst: worstLoads(states),
      states: states.map(({ at, loads: { side: _side, ...loads } }) => ({
        case: at.case,
        travel_mm: at.travel_mm,
        ...loads,
      })),
    },
  ]);
  return {
    scene,
    pose: run.pose,
    usualCases: run.usualCases,
    residual_N: run.residual_N,
    residual_Nmm: run.residual_Nmm,
    sides: Object.fromEntries(sides),
    screening: { rows, unknown, notCovered: NOT_COVERED, caution: SCREENING_CAUTION },
    assumptions: ASSUMPTIONS,
  };
}

function tell(scene: string, run: LoadsRun, rows: readonly ToldRow[], unknown: readonly ToldUnknown[]): string {
  const worst = worstLoads(run.sides.flatMap(({ states }) => states));
  const lines = [
    `${scene}: loads, engine ${run.pose}; what is left over of any part's equilibrium: ${run.residual_N.toExponential(1)} N, ${run.residual_Nmm.toExponential(1)} N·mm`,
    ...run.sides.flatMap(tellSide),
    ...(run.usualCases
      ? [
          `The scene has no load cases: these ${USUAL_CASES.length} are common practice, without a source. Put in your own.`,
        ]
      : []),
    "",
    "Worst over all of these:",
    ...worst.map(tellWorst),
    "",
    rows.length > 0
      ? "Screened, the smallest factor first (how many times the load may grow):"
      : "Nothing is screened: the scene gives no tubes, bolts, plates, welds or ratings.",
    ...rows.flatMap(tellRow),
    ...new Set(rows.map(({ check, source }) => `  ${check}: ${source}`)),
    ...(unknown.length > 0 ? ["", "Not known, so not screened:"] : []),
    ...tellUnknown(unknown),
    "",
    ...ASSUMPTIONS,
    `${SCREENING_CAUTION} Not covered: ${NOT_COVERED}.`,
  ];
  return `${lines.join("\n")}\n`;
}

function tellSide({ side, static_N, cases, bindsAt_mm, withoutLever_mm }: SideLoads): string[] {
  return [
    `${side}, static load ${static_N === null ? "not told" : kilo(static_N, "N")}:`,
    ...cases.map(({ id, force_N: [forward, out, up], torque, roll_deg }) => {
      const roll = roll_deg === 0 ? "" : `, roll ${roll_deg}°`;
      return `  ${id}: forward ${kilo(forward, "N")}, out ${kilo(out, "N")}, up ${kilo(up, "N")}${forward === 0 ? "" : HELD[torque]}${roll}`;
    }),
    ...(bindsAt_mm === null ? [] : [`  The corner binds at ${tellTravel(bindsAt_mm)}: no loads beyond.`]),
    ...(withoutLever_mm.length === 0
      ? []
      : [`  No force of the damper holds the wheel at ${withoutLever_mm.map(tellTravel).join(", ")}.`]),
  ];
}

const HELD = {
  carrier: ", torque held on the hub",
  shaft: ", torque held through the driveshaft",
  free: ", the wheel free to spin",
} as const;

const UNIT: Readonly<Record<LoadKind, string>> = {
  force: "N",
  tension: "N",
  compression: "N",
  bending: "N·m",
  spin: "N·m",
  torque: "N·m",
};

function tellWorst({ part, kind, value, at }: WorstLoad): string {
  const isMoment = UNIT[kind] === "N·m";
  const told = isMoment ? `${(value / 1000).toFixed(0)} N·m` : kilo(value, "N");
  return `  ${part} ${kind}: ${told}, ${tellAt(at)}`;
}

function tellRow({ part, check, factor, target, verdict, at, formula, inputs, notes }: ToldRow): string[] {
  const mark = verdict === "below target" ? "BELOW" : verdict === "reaches target" ? "above" : "     ";
  const wanted = target === null ? "no target set" : `target ${target}`;
  const values = Object.entries(inputs).map(
    ([name, value]) => `${name} ${typeof value === "number" ? figure(value) : value}`,
  );
  return [
    `  ${mark} ${part} ${check}: ${factor.toFixed(2)} (${wanted}), ${tellAt(at)}`,
    `        ${formula}, with ${values.join(", ")}`,
    ...notes.map((note) => `        ${note}`),
  ];
}

/** Parts that lack the same are told in one line. */
function tellUnknown(unknown: readonly ToldUnknown[]): string[] {
  const byLack = new Map<string, string[]>();
  for (const { part, missing } of unknown) {
    const lack = missing.join("; ");
    byLack.set(lack, [...(byLack.get(lack) ?? []), part]);
  }
  return [...byLack].map(([lack, parts]) => `  ${parts.join(", ")}: ${lack}`);
}

/** Four figures that count: more than any input is known to. */
function figure(value: number): string {
  return String(Number(value.toPrecision(4)));
}

function tellAt({ side, case: id, travel_mm }: LoadedAt): string {
  return `${side}, ${id}, ${tellTravel(travel_mm)}`;
}

function kilo(value: number, unit: string): string {
  return `${(value / 1000 + 0).toFixed(2)} k${unit}`;
}
