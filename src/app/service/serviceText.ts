import type { Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { jointNames } from "../../scene/jointNames.ts";
import type { FastenerDocument, JobDocument, StepDocument, ToolDocument } from "../../scene/serviceRecords.ts";
import type { OutFreeing, OutState } from "../../studies/service/out.ts";
import type { ToolFreeing, ToolReach, ToolState } from "../../studies/service/reach.ts";
import type { Stop } from "../../studies/service/walk.ts";
import { partText } from "../loads/partNames.ts";
import type { Unit } from "../store/state.ts";
import { listText, withinText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { angleText, lengthText, wantedText } from "../words/number.ts";
import { travelNumber } from "../words/travel.ts";

interface Told {
  readonly document: SceneDocument;
  readonly unit: Unit;
}

const UNITS = ["wheel", "damper", "driveshaft"] as const;

/** A part, unit or joint inside a sentence. */
export function partName(id: string, document: SceneDocument): string {
  const unit = UNITS.find((each) => each === id);
  return withinText(unit ? t(`points.parts.${unit}`) : partText(id, document));
}

function partNames(ids: readonly string[], document: SceneDocument): string {
  return listText(ids.map((id) => partName(id, document)));
}

const WAYS = [
  ["forward", "back"],
  ["outboard", "inboard"],
  ["up", "down"],
] as const;
/** Less of a lean is not told. */
const LEAST_LEAN = 0.02;

/** "down, 5° forward" for a direction: its strongest part and how far it leans to the others. */
export function directionText(way: Vec3): string {
  const shares = way.map((share, k) => ({ size: Math.abs(share), name: WAYS[k]![share < 0 ? 1 : 0] }));
  shares.sort((a, b) => b.size - a.size);
  const [main, ...others] = shares;
  const leans = others.flatMap(({ size, name }) => {
    if (size < LEAST_LEAN * main!.size) return [];
    const amount = angleText((Math.atan2(size, main!.size) * 180) / Math.PI, { digits: 0 });
    return [t("service.along", { amount, way: t(`words.ways.${name}`) })];
  });
  return listText([t(`words.ways.${main!.name}`), ...leans], "unit");
}

export function toolText(tool: ToolDocument, unit: Unit): string {
  switch (tool.kind) {
    case "socket":
      return t("service.tools.socket", {
        diameter: wantedText(tool.diameter_mm, unit),
        length: wantedText(tool.length_mm, unit),
      });
    case "spanner":
      return t("service.tools.spanner", {
        width: wantedText(tool.width_mm, unit),
        length: wantedText(tool.length_mm, unit),
      });
    case "arm":
      return t("service.tools.arm", { diameter: wantedText(tool.diameter_mm, unit) });
  }
}

/** What is off by then, with joints as the bolts that they are. */
function removedNames(removed: readonly string[], document: SceneDocument): string {
  const joints = jointNames(document);
  return listText(
    removed.map((id) => {
      const name = partName(id, document);
      return joints.includes(id) ? t("service.form.joint", { joint: name }) : name;
    }),
  );
}

/** What is to be done, one sentence a step. */
export function stepTexts(job: JobDocument, { document, unit }: Told): string[] {
  const removed = job.removed ?? [];
  const off = removed.length > 0 ? [t("service.steps.off", { parts: removedNames(removed, document) })] : [];
  if (job.kind === "out") {
    const parts = partNames(job.parts, document);
    if (job.steps.length === 0) return [...off, capital(t("service.steps.anyWay", { parts }))];
    return [...off, ...job.steps.map((step) => capital(stepText(step, parts, { document, unit })))];
  }
  const fastener = document.service?.fasteners?.find(({ id }) => id === job.fastener);
  const tools = job.tools.flatMap((id) => document.service?.tools?.find((tool) => tool.id === id) ?? []);
  return [
    ...off,
    ...(fastener ? [capital(fastenerText(fastener, unit))] : []),
    ...tools.map((tool) => t("service.steps.tool", { tool: toolText(tool, unit) })),
  ];
}

function fastenerText({ id, facing, size_mm }: FastenerDocument, unit: Unit): string {
  const size = Math.hypot(...facing);
  const way = t("service.steps.facing", { way: directionText(facing.map((part) => part / size) as unknown as Vec3) });
  if (size_mm === undefined) return t("service.steps.fastenerBare", { fastener: id, way });
  return t("service.steps.fastener", { fastener: id, way, size: wantedText(size_mm, unit) });
}

function stepText(step: StepDocument, parts: string, { document, unit }: Told): string {
  if (step.kind === "straight") {
    const size = Math.hypot(...step.way);
    const way = directionText(step.way.map((part) => part / size) as unknown as Vec3);
    return t("service.steps.straight", { parts, length: wantedText(step.length_mm, unit), way });
  }
  if (step.kind === "turn") return t("service.steps.turn", { parts, angle: angleText(step.angle_deg, { digits: 0 }) });
  const member = partName(step.member, document);
  if (!step.frees) return t("service.steps.swing", { member, angle: angleText(step.angle_deg ?? 0, { digits: 1 }) });
  const size = Math.hypot(...step.frees.way);
  const way = directionText(step.frees.way.map((part) => part / size) as unknown as Vec3);
  return t("service.steps.frees", { member, length: wantedText(step.frees.mm, unit), way });
}

/** Whether a tool fits at a state, and what stops it. */
export function toolStateText(tool: ToolDocument, state: ToolState, { document, unit }: Told): string {
  const name = toolText(tool, unit);
  const overlaps = state.near.filter(({ clearance_mm }) => clearance_mm < 0);
  const parts = listText(
    overlaps.map(({ part, clearance_mm }) =>
      t("service.reach.overlap", { part: partName(part, document), amount: lengthText(-clearance_mm, unit) }),
    ),
  );
  if (state.swing) {
    const widest = angleText(state.swing.widest_deg, { digits: 0 });
    const needs = angleText(state.swing.needs_deg, { digits: 0 });
    if (state.fits) {
      return t("service.reach.swings", { tool: name, widest, needs, way: directionText(state.swing.handle) });
    }
    if (state.swing.widest_deg <= 0 || parts === "") return t("service.reach.stuckAll", { tool: name });
    return t("service.reach.stuck", { tool: name, widest, needs, parts });
  }
  if (!state.fits) return t("service.reach.overlaps", { tool: name, parts });
  const [nearest] = state.near;
  if (!nearest) return t("service.reach.fits", { tool: name });
  const amount = lengthText(nearest.clearance_mm, unit);
  return t("service.reach.fitsNear", { tool: name, amount, part: partName(nearest.part, document) });
}

/** Whether a part comes out at a state, and what stops it. */
export function outStateText({ walk, fits, free }: OutState, told: Told): string {
  const { document, unit } = told;
  if (walk.steps.length === 0) {
    const ways = free?.ways ?? [];
    if (ways.length === 0) return t("service.out.noWay");
    return t("service.out.ways", {
      count: ways.length,
      length: wantedText(ways[0]!.length_mm, unit),
      list: listText(ways.map(({ way }) => directionText(way))),
    });
  }
  if (!fits) return stopText(walk.stop!, told);
  if (!walk.nearest) return t("service.out.free");
  const { clearance_mm, part } = walk.nearest;
  return t("service.out.freeNear", { amount: lengthText(clearance_mm, unit), part: partName(part, document) });
}

/** How far a step has got, in its own unit. */
export function gotText(got: number, unitOfStep: "mm" | "deg", unit: Unit): string {
  return unitOfStep === "mm" ? lengthText(got, unit) : angleText(got, { digits: 1 });
}

function stopText(stop: Stop, { document, unit }: Told): string {
  const step = stop.step + 1;
  switch (stop.kind) {
    case "part":
      return t("service.out.part", {
        step,
        of: partName(stop.of, document),
        part: partName(stop.part, document),
        got: gotText(stop.got, stop.unit, unit),
      });
    case "bush": {
      const needs = angleText(stop.needs_deg, { digits: 1 });
      const allows = angleText(stop.allows_deg, { digits: 1 });
      if (!stop.frees) return t("service.out.bush", { step, needs, allows });
      const { gets_mm, needs_mm } = stop.frees;
      const gets = lengthText(gets_mm, unit);
      return t("service.out.bushFrees", { step, needs, allows, gets, wants: wantedText(needs_mm, unit) });
    }
    case "held":
      return t("service.out.held", { step, joints: partNames(stop.joints, document) });
    case "unreachable":
      return t("service.out.unreachable", {
        step,
        wants: wantedText(stop.needs_mm, unit),
        most: lengthText(stop.most_mm, unit),
      });
  }
}

export function toolFreeingTexts({ free, fitsTravel_mm }: ToolReach, { document, unit }: Told): string[] {
  if (!free) return [];
  const ranges = (fitsTravel_mm ?? []).map(([from, to]) =>
    t("service.free.range", { from: travelNumber(from, unit), to: travelNumber(to, unit) }),
  );
  return [...shiftTexts(free, unit), ...offTexts(free, document), ...sizeTexts(free, unit)].concat(
    ranges.length > 0 ? [t("service.free.travel", { ranges: listText(ranges) })] : [],
  );
}

/** A tenth is told, to the side that is surely enough. */
const TENTH_mm = 0.1;
const roundUp = (mm: number): number => Math.ceil(mm / TENTH_mm - 1e-6) * TENTH_mm;
const roundDown = (mm: number): number => Math.floor(mm / TENTH_mm + 1e-6) * TENTH_mm;

function shiftTexts({ along, freely }: ToolFreeing, unit: Unit): string[] {
  const texts = [along, freely].flatMap((shift) => {
    if (!shift) return [];
    const parts = shift.way.flatMap((share, k) => {
      const mm = Math.abs(share) * roundUp(shift.mm);
      if (mm < TENTH_mm / 2) return [];
      return [
        t("service.along", { amount: lengthText(mm, unit), way: t(`words.ways.${WAYS[k]![share < 0 ? 1 : 0]}`) }),
      ];
    });
    return [t("service.free.shift", { way: listText(parts, "unit") })];
  });
  return [...new Set(texts)];
}

function offTexts({ takeOff, anyOf }: ToolFreeing, document: SceneDocument): string[] {
  return [
    ...(takeOff.length > 0 ? [capital(t("service.free.off", { parts: partNames(takeOff, document) }))] : []),
    ...(anyOf.length > 0 ? [capital(t("service.free.anyOf", { parts: partNames(anyOf, document) }))] : []),
  ];
}

function sizeTexts({ thinner_mm, shorter_mm }: ToolFreeing, unit: Unit): string[] {
  return [
    ...(thinner_mm === null ? [] : [t("service.free.thinner", { size: lengthText(roundDown(thinner_mm), unit) })]),
    ...(shorter_mm === null ? [] : [t("service.free.shorter", { size: lengthText(roundDown(shorter_mm), unit) })]),
  ];
}

export function outFreeingTexts(free: OutFreeing, { document }: Told): string[] {
  const { ways, alsoOff, boltsOut, swing } = free;
  return [
    ...ways.flatMap(({ way, off_deg }) =>
      off_deg === null
        ? []
        : [t("service.free.way", { way: directionText(way), angle: angleText(off_deg, { digits: 0 }) })],
    ),
    ...(alsoOff.length > 0 ? [capital(t("service.free.off", { parts: partNames(alsoOff, document) }))] : []),
    ...(boltsOut.length > 0 ? [t("service.free.bolt", { joints: partNames(boltsOut, document) })] : []),
    ...(swing ? [swingText(swing, document)] : []),
  ];
}

function swingText(
  { member, angle_deg, allows_deg }: NonNullable<OutFreeing["swing"]>,
  document: SceneDocument,
): string {
  const angle = angleText(Math.abs(angle_deg), { digits: 1 });
  const gaps = { member: partName(member, document), angle };
  if (allows_deg === null) return capital(t("service.free.swing", gaps));
  const allows = angleText(allows_deg, { digits: 1 });
  const isTooFar = Math.abs(angle_deg) > allows_deg;
  return capital(t(`service.free.${isTooFar ? "swingTooFar" : "swingAllowed"}`, { ...gaps, allows }));
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
