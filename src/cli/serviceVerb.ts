import type { Vec3 } from "../maths/vec3.ts";
import type { SceneDocument } from "../scene/document.ts";
import { InputError } from "../scene/error.ts";
import type { Side } from "../scene/scene.ts";
import { withService } from "../scene/serviceEdits.ts";
import type { FreeWay, OutState } from "../studies/service/out.ts";
import type { ToolFreeing, ToolReach, ToolState } from "../studies/service/reach.ts";
import { type JobReport, type ServiceReport, tryService } from "../studies/service/service.ts";
import type { Stop, WalkedStep } from "../studies/service/walk.ts";
import { loadScene } from "./loadScene.ts";
import { withTravel } from "./narrow.ts";
import { namedOf, numberOf, tripleOf } from "./numbers.ts";
import { tellOffset } from "./roomVerb.ts";
import type { OptionName, VerbOptions, VerbOutcome } from "./verb.ts";

export const SERVICE_OPTIONS: readonly OptionName[] = [
  "travel",
  "job",
  "on",
  "place",
  "facing",
  "socket",
  "part",
  "straight",
  "without",
];

const ASKED = "asked";

/** `service`: whether tools reach and parts come out at ride height and hanging, what stops them and what would free them. */
export async function runService(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const { document, meshFiles, name } = await loadScene(path);
  try {
    const asked = withAsked(withTravel(document, options.travel), options);
    const jobs = asked === null ? (options.job ?? null) : [ASKED];
    const report = tryService({ document: asked ?? withTravel(document, options.travel), meshFiles, jobs });
    if (report.jobs.length === 0) {
      const wanted = "jobs in service.jobs, or --on with --place, --facing and --socket, or --part with --straight";
      throw new InputError("missing-id", { path: "service" }, "there is no job to try", wanted);
    }
    const status = report.jobs.some(({ fitsAt }) => fitsAt.length === 0) ? 1 : 0;
    const output = options.json
      ? `${JSON.stringify({ study: "service", scene: name, ...report })}\n`
      : tellService(name, report);
    return { output, status };
  } catch (error) {
    throw error instanceof InputError ? error.in(path) : error;
  }
}

/** The document with the one job that the options describe; null: they describe none. */
function withAsked(document: SceneDocument, options: VerbOptions): SceneDocument | null {
  const { on, place, facing, socket, part, straight, without = [] } = options;
  const removed = without.length > 0 ? { removed: [...without] } : {};
  if (part !== undefined) {
    const steps = (straight ?? []).map((text) => {
      const [way, mm] = namedOf("straight", text);
      return { kind: "straight" as const, way: tripleOf("straight", way), length_mm: numberOf("straight", mm, 0) };
    });
    return withService(document, { jobs: [{ id: ASKED, kind: "out", parts: [part], steps, ...removed }] });
  }
  if (on === undefined && place === undefined && facing === undefined && socket === undefined) return null;
  for (const [option, text] of Object.entries({ on, place, facing, socket })) {
    if (text !== undefined) continue;
    throw new InputError(
      "wrong-value",
      { path: `--${option}` },
      "is not given",
      "--on, --place, --facing and --socket",
    );
  }
  const [diameter, length] = socket!.split("x");
  return withService(document, {
    fasteners: [{ id: ASKED, on: on!, at: tripleOf("place", place!), facing: tripleOf("facing", facing!) }],
    tools: [
      {
        id: `socket ${socket}`,
        kind: "socket",
        diameter_mm: numberOf("socket", diameter, 0),
        length_mm: numberOf("socket", length ?? "", 0),
      },
    ],
    jobs: [{ id: ASKED, kind: "reach", fastener: ASKED, tools: [`socket ${socket}`], ...removed }],
  });
}

function tellService(name: string, { jobs }: ServiceReport): string {
  const lines = jobs.flatMap((job) => [tellVerdict(job), ...tellJob(job).map((line) => `  ${line}`)]);
  lines.push("Geometry only, rigid parts, the engine at rest: try it by hand. Work on stands, never on a jack alone.");
  return `${name}: service\n${lines.join("\n")}\n`;
}

const WHERE = { ride: "at ride height", droop: "hanging at full droop" } as const;

function tellVerdict({ job, side, fitsAt, kind }: JobReport): string {
  const done = kind === "reach" ? "every tool fits" : "it comes out";
  const verdict = fitsAt.length > 0 ? `${done} ${fitsAt.map((state) => WHERE[state]).join(" and ")}` : "never";
  return `${job} (${side}): ${verdict}`;
}

function tellJob(job: JobReport): string[] {
  return job.kind === "reach" ? job.tools.flatMap(tellTool) : job.states.flatMap((state) => tellOut(state, job.side));
}

function tellTool({ tool, kind, states, fitsTravel_mm, free }: ToolReach): string[] {
  const travel = fitsTravel_mm?.map(([from, to]) => `${from.toFixed(0)} to ${to.toFixed(0)} mm of travel`) ?? [];
  const whole = states.every(({ fits }) => fits);
  return [
    ...states.map((state) => `${tool} ${WHERE[state.state]}: ${tellState(state)}`),
    ...(!whole && travel.length > 0 ? [`${tool} fits from ${travel.join(", from ")}`] : []),
    ...(free ? tellFreeing(kind, free).map((line) => `${tool} would fit ${line}`) : []),
  ];
}

function tellState({ fits, clearance_mm, near, swing }: ToolState): string {
  const overlaps = near.filter((each) => each.clearance_mm < 0);
  const named = overlaps.map((each) => `${each.part} by ${(-each.clearance_mm).toFixed(1)} mm`).join(", ");
  if (swing) {
    const room = `swings ${swing.widest_deg.toFixed(0)}° of the ${swing.needs_deg}° it needs`;
    return fits ? `fits, ${room}, handle ${tellWay(swing.handle)}` : `${room}${named ? `; overlaps ${named}` : ""}`;
  }
  if (!fits) return `overlaps ${named}`;
  return clearance_mm === null
    ? "fits, nothing within 25 mm"
    : `fits, ${clearance_mm.toFixed(1)} mm to ${near[0]!.part}`;
}

function tellFreeing(kind: ToolReach["kind"], free: ToolFreeing): string[] {
  const { along, freely, takeOff, anyOf, thinner_mm, shorter_mm } = free;
  const shifts = [along, freely].flatMap((shift) => (shift ? [tellOffset(scaled(shift.way, up(shift.mm)))] : []));
  return [
    ...[...new Set(shifts)].map((shift) => `with the fastener ${shift}`),
    ...(takeOff.length > 0 ? [`with ${takeOff.join(" and ")} off`] : []),
    ...(anyOf.length > 0 ? [`with ${anyOf.join(" or ")} off`] : []),
    ...(thinner_mm === null ? [] : [`no thicker than ${down(thinner_mm)} mm`]),
    ...(shorter_mm === null || kind !== "socket" ? [] : [`no longer than ${down(shorter_mm)} mm`]),
  ];
}

function tellOut({ state, fits, walk, free }: OutState, side: Side): string[] {
  const head = `${WHERE[state]}:`;
  if (walk.steps.length === 0) {
    const ways = free?.ways ?? [];
    if (ways.length === 0) return [`${head} no straight way out`];
    const told = ways.map(({ way }) => tellWay(way)).sort((a, b) => a.length - b.length);
    return [`${head} comes straight out, ${ways[0]!.length_mm} mm: ${told.join("; ")}`];
  }
  const { nearest, stop, leftOut } = walk;
  const lines = fits
    ? [
        `${head} ${walk.steps.map(tellStep).join(", then ")}${nearest ? `; nearest ${nearest.part}, ${nearest.clearance_mm.toFixed(1)} mm` : ""}`,
      ]
    : [`${head} ${tellStop(stop!, side)}`];
  if (free) {
    lines.push(
      ...free.ways.map((each) => `  free ${tellFreeWay(each)}`),
      ...(free.alsoOff.length > 0 ? [`  free with ${free.alsoOff.join(" and ")} off too`] : []),
      ...(free.boltsOut.length > 0 ? [`  ${free.boltsOut.join(" and ")}: bolt out too`] : []),
    );
    if (free.swing) {
      const { member, angle_deg, allows_deg, joint } = free.swing;
      const limit = allows_deg === null ? "what its bush allows is not told" : `its bush allows ${allows_deg}°`;
      const bolt = allows_deg !== null && Math.abs(angle_deg) > allows_deg && joint ? `: ${joint} bolt out too` : "";
      lines.push(`  free with ${member} swung ${Math.abs(angle_deg).toFixed(1)}°, ${limit}${bolt}`);
    }
  }
  if (leftOut.length > 0) lines.push(`  not asked, accepted in the scene: ${leftOut.join(", ")}`);
  return lines;
}

function tellStep({ kind, of }: WalkedStep): string {
  return kind === "straight" ? `${of.toFixed(0)} mm straight` : `${kind} ${of.toFixed(1)}°`;
}

function tellStop(stop: Stop, side: Side): string {
  const step = `step ${stop.step + 1}`;
  switch (stop.kind) {
    case "part": {
      const [x, y, z] = stop.where;
      const place = [x, side === "right" ? -y : y, z].map((mm) => mm.toFixed(0));
      return `${stop.of} meets ${stop.part} in ${step} after ${stop.got.toFixed(1)}${stop.unit === "mm" ? " mm" : "°"} (forward ${place[0]}, out ${place[1]}, up ${place[2]} mm)`;
    }
    case "bush": {
      const gets = stop.frees ? `: ${stop.frees.gets_mm.toFixed(0)} mm of the ${stop.frees.needs_mm} mm it needs` : "";
      return `needs ${stop.needs_deg.toFixed(1)}° of swing in ${step}, the bush allows ${stop.allows_deg}°${gets}`;
    }
    case "held":
      return `still held at ${stop.joints.join(", ")} in ${step}`;
    case "unreachable":
      return `no swing about that axis brings it ${stop.needs_mm} mm in ${step}, at most ${stop.most_mm.toFixed(0)} mm`;
  }
}

function tellFreeWay({ way, length_mm, off_deg }: FreeWay): string {
  const leant = off_deg === null ? "" : `, ${off_deg.toFixed(0)}° from what was asked`;
  return `${tellWay(way)}, ${length_mm} mm${leant}`;
}

/** "out and 5° down" for a direction: its strongest part, and how far it leans to the others. */
function tellWay(way: Vec3): string {
  const names = [
    ["forward", "back"],
    ["out", "in"],
    ["up", "down"],
  ] as const;
  const shares = way.map((share, k) => ({ share: Math.abs(share), name: names[k]![share < 0 ? 1 : 0] }));
  shares.sort((a, b) => b.share - a.share);
  const [main, ...others] = shares;
  const leans = others
    .filter(({ share }) => share > 0.01)
    .map(({ share, name }) => `${((Math.atan2(share, main!.share) * 180) / Math.PI).toFixed(0)}° ${name}`);
  return [main!.name, ...leans].join(" and ");
}

function scaled([x, y, z]: Vec3, by: number): Vec3 {
  return [x * by, y * by, z * by];
}

/** To the tenth that is surely enough. */
function up(mm: number): number {
  return Math.ceil(mm * 10 - 1e-6) / 10;
}

function down(mm: number): string {
  return (Math.floor(mm * 10 + 1e-6) / 10).toFixed(1);
}
