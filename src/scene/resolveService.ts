import { distance, type Vec3 } from "../maths/vec3.ts";
import type { MemberDocument, SceneDocument } from "./document.ts";
import { jointNames } from "./jointNames.ts";
import { nearestOf } from "./nearest.ts";
import { shortQuote } from "./path.ts";
import { type Resolving, unitVector } from "./resolving.ts";
import type { JointFit } from "./scene.ts";
import {
  type Fastener,
  type JobDocument,
  NO_SERVICE,
  type Service,
  type ServiceJob,
  type ServiceStep,
  type ServiceTool,
  type StepDocument,
  type SwingStep,
} from "./serviceRecords.ts";

/** A bi-hexagon ring can be put on anew every 30°: common practice, no source. */
const USUAL_SWING_deg = 30;
/** A swing's axis that is nearer to a bush's bolt than this turns the bush about it; else it tilts it. */
const ALONG_deg = 30;
const SAME_PLACE_mm = 1;

/** Ids that stand for several bodies. */
const UNITS = ["wheel", "damper"];

/**
 * Service records with their points resolved and what they name looked up. `joints`: what the document tells of joints, for
 * what a bush allows. Throws InputError `missing-id`, `duplicate-id`, `zero-length` or `wrong-value` with the place.
 */
export function resolveService(document: SceneDocument, joints: readonly JointFit[], context: Resolving): Service {
  const { service } = document;
  if (!service) return NO_SERVICE;
  const { refuse, drawn, mounted } = context;
  const { fasteners = [], tools = [], jobs = [] } = service;
  const mounts = mountsOf(document);
  const bodies = bodyIds(document);
  const jointIds = jointNames(document);
  for (const [list, what] of [
    ["fasteners", "fastener"],
    ["tools", "tool"],
    ["jobs", "job"],
  ] as const) {
    const ids = (service[list] ?? []).map(({ id }) => id);
    ids.forEach((id, i) => {
      if (ids.indexOf(id) === i) return;
      const wrong = `another ${what} has the id ${shortQuote(id)}`;
      throw refuse("duplicate-id", `service.${list}[${i}].id`, wrong, "an id of its own");
    });
  }

  const placed = fasteners.map((fastener, i): Fastener => {
    const path = `service.fasteners[${i}]`;
    const { id, on } = fastener;
    mustBe(on, [...mounts, ...bodies], `${path}.on`);
    const body = document.bodies.find((each) => each.id === on);
    const mount = body ? body.on : (MOUNT_OF[on] ?? on);
    const locate = mount === "chassis" ? mounted : drawn;
    return {
      id,
      mount,
      part: bodies.includes(on) ? on : null,
      isMirrored: (mount !== "chassis" && mount !== "powertrain") || body?.mirror === true,
      at: locate(fastener.at, `${path}.at`),
      facing: unitVector(fastener.facing, `${path}.facing`, context),
      size_mm: fastener.size_mm ?? null,
    };
  });
  const made = tools.map((tool): ServiceTool => {
    if (tool.kind === "socket") return tool;
    if (tool.kind === "arm") return { off_mm: 0, ...tool };
    return { swing_deg: USUAL_SWING_deg, off_mm: 0, ...tool };
  });
  return { fasteners: placed, tools: made, jobs: jobs.map(resolveJob) };

  function resolveJob(job: JobDocument, i: number): ServiceJob {
    const path = `service.jobs[${i}]`;
    const { id, side = null, removed = [] } = job;
    if (side !== null && document.sides !== "both" && document.sides !== side) {
      throw refuse("wrong-value", `${path}.side`, `the scene has no ${side} side`, document.sides);
    }
    removed.forEach((each, k) => {
      mustBe(each, [...bodies, ...UNITS, ...jointIds], `${path}.removed[${k}]`);
    });
    if (job.kind === "reach") {
      mustBe(
        job.fastener,
        placed.map((each) => each.id),
        `${path}.fastener`,
      );
      job.tools.forEach((tool, k) => {
        mustBe(
          tool,
          made.map((each) => each.id),
          `${path}.tools[${k}]`,
        );
      });
      const fastener = placed.find((each) => each.id === job.fastener)!;
      const chosen = job.tools.map((tool) => made.find((each) => each.id === tool)!);
      return { kind: "reach", id, side, removed, fastener, tools: chosen };
    }
    job.parts.forEach((part, k) => {
      mustBe(part, [...bodies, ...UNITS], `${path}.parts[${k}]`);
    });
    const steps = job.steps.map((step, k) => resolveStep(step, `${path}.steps[${k}]`));
    return { kind: "out", id, side, removed, parts: job.parts, steps };
  }

  function resolveStep(step: StepDocument, path: string): ServiceStep {
    if (step.kind === "straight") return { ...step, way: unitVector(step.way, `${path}.way`, context) };
    if (step.kind === "turn") {
      const { angle_deg } = step;
      const about = drawn(step.about, `${path}.about`);
      return { kind: "turn", about, axis: unitVector(step.axis, `${path}.axis`, context), angle_deg };
    }
    const member = document.members.find(({ id }) => id === step.member);
    if (!member) {
      mustBe(
        step.member,
        document.members.map(({ id }) => id),
        `${path}.member`,
      );
      throw new Error("a member that is there was not found");
    }
    if ((step.angle_deg === undefined) === (step.frees === undefined)) {
      const wrong = step.frees ? "has both an angle and what it frees" : "has neither an angle nor what it frees";
      throw refuse("wrong-value", path, wrong, "angle_deg or frees");
    }
    const ends = endsOf(member).map(([end, point]) => [`${member.id}.${end}`, mounted(point, path)] as const);
    const about = step.about === undefined ? ends[0]![1] : mounted(step.about, `${path}.about`);
    const joint = ends.find(([, place]) => distance(place, about) < SAME_PLACE_mm)?.[0] ?? null;
    const axis = step.axis ? unitVector(step.axis, `${path}.axis`, context) : UPRIGHT;
    const { frees } = step;
    const by: SwingStep["by"] = frees
      ? {
          kind: "frees",
          at: drawn(frees.at, `${path}.frees.at`),
          way: unitVector(frees.way, `${path}.frees.way`, context),
          mm: frees.mm,
        }
      : { kind: "angle", angle_deg: step.angle_deg! };
    const allows_deg = step.allows_deg ?? allowedBy(joints, joint, axis);
    return { kind: "swing", member: member.id, about, axis, by, allows_deg, joint };
  }

  function mustBe(id: string, known: readonly string[], path: string): void {
    if (known.includes(id)) return;
    const nearest = nearestOf(id, known);
    const wanted = nearest
      ? `${nearest}?`
      : known.length > 0
        ? `one of ${known.join(", ")}`
        : "one that is told before";
    throw refuse("missing-id", path, `${shortQuote(id)} names nothing here`, wanted);
  }
}

const UPRIGHT: Vec3 = [0, 0, 1];
/** What the units' own bodies ride on, where it goes by another name. */
const MOUNT_OF: Readonly<Record<string, string>> = { tyre: "carrier", rim: "carrier", spring: "damper-upper" };

function mountsOf({ members, damper, driveshaft, antiRollBar }: SceneDocument): string[] {
  return [
    "chassis",
    "powertrain",
    "carrier",
    ...members.map(({ id }) => id),
    ...(damper ? ["damper-upper", "damper-lower"] : []),
    ...(driveshaft ? ["driveshaft"] : []),
    ...(antiRollBar ? ["bar", "bar-link"] : []),
  ];
}

function bodyIds(document: SceneDocument): string[] {
  const { members, damper, driveshaft, antiRollBar, bodies } = document;
  return [
    "tyre",
    "rim",
    ...members.map(({ id }) => id),
    ...(damper ? ["damper-upper", "damper-lower", ...(damper.spring_mm === undefined ? [] : ["spring"])] : []),
    ...(driveshaft ? ["driveshaft"] : []),
    ...(antiRollBar ? ["bar", "bar-link"] : []),
    ...bodies.map(({ id }) => id),
  ];
}

/** The ends of a member on the chassis, the one that it is swung about unless told otherwise first. */
function endsOf(member: MemberDocument) {
  switch (member.kind) {
    case "ball":
      return [["at", member.at]] as const;
    case "link":
      return [["inboard", member.inboard]] as const;
    case "strut":
      return [["top", member.top]] as const;
    default:
      return [
        ["front", member.front],
        ["rear", member.rear],
      ] as const;
  }
}

function allowedBy(joints: readonly JointFit[], joint: string | null, axis: Vec3): number | null {
  const fit = joints.find((each) => each.joint === joint);
  if (!fit) return null;
  const cosine = Math.abs(fit.axis[0] * axis[0] + fit.axis[1] * axis[1] + fit.axis[2] * axis[2]);
  return cosine > Math.cos((ALONG_deg * Math.PI) / 180) ? fit.twist_deg : fit.tilt_deg;
}
