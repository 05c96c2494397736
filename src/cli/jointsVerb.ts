import { runSides } from "../check/tracks.ts";
import { type BoltPull, boltPulls } from "../loads/boltPull.ts";
import { runLoads } from "../loads/runLoads.ts";
import { InputError } from "../scene/error.ts";
import { resolveScene } from "../scene/resolve.ts";
import type { Scene } from "../scene/scene.ts";
import { type AtTravel, type JointStudy, type JointsStudy, jointsStudy } from "../studies/runningGear/joints.ts";
import { loadScene } from "./loadScene.ts";
import { withTravel } from "./narrow.ts";
import { tellLimit, tellTravel } from "./tellState.ts";
import type { VerbOptions, VerbOutcome } from "./verb.ts";

const ASSUMPTIONS = [
  "Tilt: from square to the rod for a rod end, from as drawn for a ball joint or bush. A link between two ball joints spins freely; its two rod ends share what their bolts turn against each other.",
  "Twist of a bush: from ride height, where its bolt is to be tightened.",
  "A crooked bracket counts in the direction that is worst for the joint.",
] as const;

/** `joints`: tilt and twist of every joint through the travel, the pull against its bolt, single or double shear. */
export async function runJoints(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const { name, document } = await loadScene(path);
  try {
    const scene = resolveScene(withTravel(document, options.travel), path);
    const studies = runSides(scene).map((run) => jointsStudy(scene, run));
    const pulls = pullsOf(scene);
    const isPast = studies.some(({ limits }) => limits.some(({ verdict }) => verdict === "clash"));
    const sides = Object.fromEntries(
      studies.map(({ side, ...study }) => [
        side,
        { ...study, pulls: pulls?.filter(({ at }) => at.side === side) ?? null },
      ]),
    );
    return {
      output: options.json
        ? `${JSON.stringify({ scene: name, sides, assumptions: ASSUMPTIONS })}\n`
        : `${[`${name}: joints`, ...studies.flatMap((study) => tellSide(study, pulls)), "", ...ASSUMPTIONS].join("\n")}\n`,
      status: isPast ? 1 : 0,
    };
  } catch (error) {
    throw error instanceof InputError ? error.in(path) : error;
  }
}

/** null where the scene does not tell what its forces hang on: a damper, and the wheels' load or cases in newtons. */
function pullsOf(scene: Scene): BoltPull[] | null {
  const { damper, joints, loads } = scene;
  const isWeighed = scene.sides.every((side) => loads.cornerMass_kg[side] !== null);
  const needsWeight = loads.cases?.some(({ timesStatic }) => timesStatic.some((value) => value !== 0)) ?? true;
  if (!damper || joints.length === 0 || (needsWeight && !isWeighed)) return null;
  return runLoads(scene).sides.flatMap(({ side, states }) => boltPulls(scene, side, states));
}

function tellSide({ side, joints, links, limits }: JointsStudy, pulls: readonly BoltPull[] | null): string[] {
  const told = joints.filter(({ fit }) => fit !== null);
  const untold = joints.filter(({ fit }) => fit === null).map(({ joint }) => joint);
  return [
    "",
    `${side}:`,
    ...told.flatMap((study) =>
      tellJoint(
        study,
        pulls?.find(({ joint, at }) => joint === study.joint && at.side === side),
      ),
    ),
    ...links.map(
      ({ member, twist_deg, room_deg }) =>
        `  ${member}: its bolts turn against each other by ${atTravel(twist_deg)}; its rod ends leave room for ${room_deg.toFixed(1)}°`,
    ),
    ...limits.map(tellLimit),
    ...(untold.length > 0 ? [`  Not told, so not checked: ${untold.join(", ")}. Give each a record in joints.`] : []),
    ...(pulls === null && told.length > 0
      ? ["  Pull against the bolts: tell the damper, and loads.cornerMass_kg or cases in newtons."]
      : []),
  ];
}

function tellJoint(
  { joint, fit, tiltAtRide_deg, tilt_deg, twist_deg }: JointStudy,
  pull: BoltPull | undefined,
): string[] {
  const { kind, crooked_deg } = fit!;
  const crooked = crooked_deg > 0 ? `, ${crooked_deg}° more with its bracket crooked` : "";
  const rows = [
    `  ${joint} (${kind}): tilts ${tiltAtRide_deg!.toFixed(1)}° at ride height, up to ${atTravel(tilt_deg!)}${crooked}; turns ${atTravel(twist_deg!)}`,
  ];
  if (pull) {
    const { along_N, across_N, angle_deg, planes, at } = pull;
    const shear =
      planes === null
        ? "whether in single or double shear is not told (loads.bolts)"
        : planes === 1
          ? "single shear"
          : "double shear";
    rows.push(
      `    pulled ${angle_deg.toFixed(0)}° to its bolt where most along it: ${along_N.toFixed(0)} N along, ${across_N.toFixed(0)} N across (${at.case}, ${tellTravel(at.travel_mm)}); ${shear}`,
    );
  }
  return rows;
}

function atTravel({ value, travel_mm }: AtTravel): string {
  return `${value.toFixed(1)}° at ${tellTravel(travel_mm)}`;
}
