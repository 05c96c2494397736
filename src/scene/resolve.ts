import { checkNames } from "./checkNames.ts";
import type { SceneDocument } from "./document.ts";
import { hardPoints } from "./hardPoints.ts";
import { keptShape } from "./keptShape.ts";
import { meshFilesOf } from "./meshFiles.ts";
import { pointResolver } from "./pointResolver.ts";
import { pointsOfMade } from "./recipes/makeShape.ts";
import { resolveJoints } from "./resolveJoints.ts";
import { resolveLoads } from "./resolveLoads.ts";
import { resolveMembers } from "./resolveMembers.ts";
import { resolveService } from "./resolveService.ts";
import { resolveAntiRollBar, resolveDamper, resolveDriveshaft } from "./resolveUnits.ts";
import { type Resolving, resolving, squaredTo, unitVector } from "./resolving.ts";
import type { Body, Datum, Powertrain, PowertrainPose, Scene } from "./scene.ts";
import { checkTubeEnds } from "./tubeEnds.ts";
import { parseTyre } from "./tyre.ts";

const DEFAULT_TESSELLATION_MM = 0.1;
const DEFAULT_JOINT_RADIUS_MM = 40;

const REST: PowertrainPose = {
  id: "rest",
  about: [0, 0, 0],
  axis: [0, 1, 0],
  angle_deg: 0,
  shift_mm: [0, 0, 0],
  within_mm: null,
};

/**
 * Fills in defaults and turns every POINT into car coordinates. Throws InputError for what the schema alone cannot see:
 * points, ids, constraint count, degenerate parts, lengths in the wrong order. `file` is for its message.
 */
export function resolveScene(document: SceneDocument, file = ""): Scene {
  const context = resolving(pointResolver(document, file), file);
  const points = hardPoints(document, context);
  checkNames(document, context);
  meshFilesOf(document, file);
  checkMade(document, context);
  const { drawn, refuse } = context;

  parseTyre(document.wheel.tyre, { file, path: "wheel.tyre" });
  const centre = drawn(document.wheel.centre, "wheel.centre");
  if (centre[1] < 0) {
    const wrong = `the wheel stands ${-centre[1]} mm right of the car's centre plane`;
    throw refuse("wrong-value", "wheel.centre", wrong, "a left corner, y above 0; the right one is its image");
  }

  const joints = resolveJoints(document, context);
  checkTubeEnds(document, context);
  return {
    title: document.title,
    notes: document.notes ?? "",
    sides: document.sides === "both" ? ["left", "right"] : [document.sides],
    points,
    datums: resolveDatums(document, context),
    wheel: { ...document.wheel, centre, ...tyreAllowances(document) },
    travel: document.travel,
    members: resolveMembers(document.members, context),
    damper: document.damper ? resolveDamper(document.damper, context) : null,
    antiRollBar: document.antiRollBar ? resolveAntiRollBar(document.antiRollBar, context) : null,
    driveshaft: document.driveshaft ? resolveDriveshaft(document.driveshaft, context) : null,
    powertrain: resolvePowertrain(document, context),
    joints,
    vehicle: document.vehicle ? { rearBrakeShare: null, ...document.vehicle } : null,
    loads: resolveLoads(document, context),
    service: resolveService(document, joints, context),
    bodies: document.bodies.map((body, i) => resolveBody(body, `bodies[${i}]`, context)),
    tessellation_mm: document.tessellation_mm ?? DEFAULT_TESSELLATION_MM,
    clearances: {
      default_mm: document.clearances.default_mm,
      jointRadius_mm: document.clearances.jointRadius_mm ?? DEFAULT_JOINT_RADIUS_MM,
      rules: document.clearances.rules ?? [],
      accept: document.clearances.accept ?? [],
    },
    give: document.allowances?.give ?? [],
  };
}

function tyreAllowances({ allowances }: SceneDocument): Pick<Scene["wheel"], "growth_mm" | "bulge_mm"> {
  const { tyreGrowth_mm = 0, tyreBulge_mm = 0 } = allowances ?? {};
  return {
    ...(tyreGrowth_mm > 0 ? { growth_mm: tyreGrowth_mm } : {}),
    ...(tyreBulge_mm > 0 ? { bulge_mm: tyreBulge_mm } : {}),
  };
}

/** A recipe whose points are gone could not be made anew: better told when the file is read. */
function checkMade(document: SceneDocument, { drawn }: Resolving): void {
  for (const part of ["members", "bodies"] as const) {
    document[part].forEach(({ made }, i) => {
      if (made) for (const { key, point } of pointsOfMade(made)) drawn(point, `${part}[${i}].made.${key}`);
    });
  }
}

/** Whichever axis the builder gave is kept; `up` gives way when both are given and not square. */
function resolveDatums(document: SceneDocument, context: Resolving): Datum[] {
  return (document.datums ?? []).map((datum, i) => {
    const path = `datums[${i}]`;
    const at = context.drawn(datum.at, `${path}.at`);
    if (datum.forward === undefined && datum.up !== undefined) {
      const up = unitVector(datum.up, `${path}.up`, context);
      return { id: datum.id, at, forward: squaredTo(up, [1, 0, 0], `${path}.up`, context), up };
    }
    const forward = unitVector(datum.forward ?? [1, 0, 0], `${path}.forward`, context);
    const up = squaredTo(forward, datum.up ?? [0, 0, 1], datum.up ? `${path}.up` : `${path}.forward`, context);
    return { id: datum.id, at, forward, up };
  });
}

function resolvePowertrain(document: SceneDocument, context: Resolving): Powertrain {
  const { drawn, refuse } = context;
  const { place, poses = [] } = document.powertrain ?? {};
  const resolvedPoses = poses.map((pose, i): PowertrainPose => {
    const path = `powertrain.poses[${i}]`;
    const within_mm = pose.within_mm ?? null;
    if (within_mm !== null && within_mm[0] > within_mm[1]) {
      throw refuse(
        "wrong-value",
        `${path}.within_mm`,
        `runs from ${within_mm[0]} to ${within_mm[1]}`,
        "the lower travel first",
      );
    }
    return {
      ...pose,
      about: drawn(pose.about, `${path}.about`),
      axis: unitVector(pose.axis, `${path}.axis`, context),
      shift_mm: pose.shift_mm ?? [0, 0, 0],
      within_mm,
    };
  });
  return {
    place: place ? { ...place, about: drawn(place.about, "powertrain.place.about") } : null,
    poses: [REST, ...resolvedPoses],
  };
}

function resolveBody(body: SceneDocument["bodies"][number], path: string, context: Resolving): Body {
  const locate = body.on === "chassis" ? context.mounted : context.drawn;
  return {
    id: body.id,
    on: body.on,
    shape: keptShape(body.shape, `${path}.shape`, locate, context),
    role: body.role ?? null,
    mirror: body.mirror ?? false,
  };
}
