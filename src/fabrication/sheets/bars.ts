import { applyPose } from "../../maths/pose.ts";
import { cross, distance, normalise, type Vec3 } from "../../maths/vec3.ts";
import type { AntiRollBar, Body, Member, Scene, Shape, WishboneMember } from "../../scene/scene.ts";
import { type PlacedShape, simpleShapes } from "./shapesOf.ts";

/** What is cut to length: a round tube (solid where the wall is as thick as the radius) or a section, by its size over all. */
export type BarSize =
  /** `diameter_mm` null: told nowhere. */
  | { readonly kind: "round"; readonly diameter_mm: number | null; readonly wall_mm: number | null }
  | {
      readonly kind: "section";
      readonly height_mm: number;
      readonly width_mm: number;
      readonly wall_mm: number | null;
    };

/** Where a bar ends in a joint, and which way its bolt, sleeve or housing lies there (unit vector; null: not told). */
export interface BarJoint {
  readonly name: string;
  readonly axis: Vec3 | null;
}

/** A tube or section of the scene before it is cut, car coordinates of the left side, mm. */
export interface DrawnBar {
  readonly part: string;
  /** What it is of that part. */
  readonly what: "link" | "front leg" | "rear leg" | "drop link" | "frame";
  /** Along its centre line. */
  readonly path: readonly Vec3[];
  /** Centre-line radius of its bends; null: mitred at its corners. */
  readonly bend_mm: number | null;
  readonly size: BarSize;
  readonly material: string | null;
  readonly joints: readonly [BarJoint | null, BarJoint | null];
  /** How many the car wants. */
  readonly count: number;
}

/** Bodies whose tubes and sections are cut: the others are bought, bent of rod or hose. */
const CUT_ROLES: readonly (string | null)[] = [null, "frame", "bracket"];

/**
 * Everything of the scene that is cut from tube or section: made links and wishbones, the frame, and the drop link where `isTold` knows how
 * its tube ends: most are bought.
 */
export function drawnBars(scene: Scene, isTold: (joint: string) => boolean): DrawnBar[] {
  return [
    ...scene.members
      .filter((member) => member.stock === "made" && isOfTube(member))
      .flatMap((member) => memberBars(scene, member)),
    ...(scene.antiRollBar && (isTold("bar.arm") || isTold("bar.pickup")) ? [dropLink(scene, scene.antiRollBar)] : []),
    ...scene.bodies.flatMap((body) => frameBars(scene, body)),
  ];
}

/** A made link is of tube unless it is drawn as something else: where nothing round runs along at least half of it, it is plate or a casting. */
export function isOfTube(member: Member): boolean {
  if (member.kind !== "link" || !member.body) return true;
  const half = distance(member.inboard, member.outboard) / 2;
  return simpleShapes(member.body).some(({ shape }) => {
    if (shape.kind === "tube") return distance(shape.path[0]!, shape.path.at(-1)!) >= half;
    return (shape.kind === "cylinder" || shape.kind === "capsule") && distance(shape.from, shape.to) >= half;
  });
}

function memberBars(scene: Scene, member: Member): DrawnBar[] {
  const sized = (section: string) => {
    const tubes = scene.loads.tubes.filter((tube) => tube.member === member.id);
    const tube = tubes.find((one) => one.section === section) ?? tubes.find((one) => !one.section) ?? tubes[0];
    const wall_mm = tube?.wall_mm ?? null;
    const size: BarSize = { kind: "round", diameter_mm: tube?.diameter_mm ?? member.diameter_mm, wall_mm };
    return { part: member.id, size, material: tube?.material ?? null, count: scene.sides.length };
  };
  const joint = (end: string, axis: Vec3 | null): BarJoint => ({
    name: `${member.id}.${end}`,
    axis: axis ?? toldAxis(scene, `${member.id}.${end}`),
  });
  if (member.kind === "link") {
    const { inboard, outboard, bushAxis, body } = member;
    const bent = body ? bentTube(body) : null;
    return [
      {
        ...sized("inboard"),
        what: "link",
        // as drawn it stops short of its eyes
        path: [inboard, ...(bent?.corners ?? []), outboard],
        bend_mm: bent?.bend_mm ?? null,
        joints: [joint("inboard", bushAxis), joint("outboard", null)],
      },
    ];
  }
  if (member.kind === "wishbone") {
    const leg = (end: "front" | "rear"): DrawnBar => ({
      ...sized(end),
      what: `${end} leg`,
      path: [member[end], member.outboard],
      bend_mm: null,
      joints: [joint(end, inboardLine(member)), joint("outboard", null)],
    });
    return [leg("front"), leg("rear")];
  }
  return [];
}

/** The corners between the ends of the one tube of a cranked link; null where its shape has no such tube. */
function bentTube(body: Shape): { corners: Vec3[]; bend_mm: number | null } | null {
  const tubes = simpleShapes(body).flatMap(({ shape, pose }) =>
    shape.kind === "tube" && shape.path.length > 2 ? [{ shape, pose }] : [],
  );
  const [only] = tubes;
  if (!only || tubes.length > 1) return null;
  const corners = only.shape.path.slice(1, -1).map((corner) => applyPose(only.pose, corner));
  return { corners, bend_mm: only.shape.bend_mm };
}

function inboardLine({ front, rear }: WishboneMember): Vec3 {
  return normalise([front[0] - rear[0], front[1] - rear[1], front[2] - rear[2]]);
}

function toldAxis(scene: Scene, joint: string): Vec3 | null {
  return scene.joints.find((fit) => fit.joint === joint)?.axis ?? null;
}

/** Its own tube is not told of anywhere; the bar's diameter is the bar's. */
function dropLink(scene: Scene, { arm, pickup }: AntiRollBar): DrawnBar {
  return {
    part: "bar",
    what: "drop link",
    path: [arm, pickup],
    bend_mm: null,
    size: { kind: "round", diameter_mm: null, wall_mm: null },
    material: null,
    joints: [
      { name: "bar.arm", axis: toldAxis(scene, "bar.arm") },
      { name: "bar.pickup", axis: toldAxis(scene, "bar.pickup") },
    ],
    count: scene.sides.length,
  };
}

function frameBars(scene: Scene, body: Body): DrawnBar[] {
  if (body.on !== "chassis" || !CUT_ROLES.includes(body.role)) return [];
  const count = body.mirror ? scene.sides.length : 1;
  return simpleShapes(body.shape).flatMap((placed): DrawnBar[] => {
    const bar = barOf(placed);
    return bar ? [{ ...bar, part: body.id, what: "frame", material: null, joints: [null, null], count }] : [];
  });
}

/** A box counts as a bar from three times as long as thick on. */
const BAR_SHARE = 3;

function barOf({ shape, pose }: PlacedShape): Pick<DrawnBar, "path" | "bend_mm" | "size"> | null {
  if (shape.kind === "tube") {
    const size: BarSize = { kind: "round", diameter_mm: shape.diameter_mm, wall_mm: shape.wall_mm };
    return { path: shape.path.map((p) => applyPose(pose, p)), bend_mm: shape.bend_mm, size };
  }
  if (shape.kind === "box") {
    const order = [0, 1, 2].sort((a, b) => shape.size_mm[b]! - shape.size_mm[a]!) as [number, number, number];
    const [long, height_mm, width_mm] = order.map((i) => shape.size_mm[i]!) as [number, number, number];
    // what is flat is plate
    if (long < BAR_SHARE * height_mm || height_mm > BAR_SHARE * width_mm) return null;
    const half = [0, 1, 2].map((i) => (i === order[0] ? long / 2 : 0)) as unknown as Vec3;
    const path = [applyPose(pose, [-half[0], -half[1], -half[2]]), applyPose(pose, half)];
    return { path, bend_mm: null, size: { kind: "section", height_mm, width_mm, wall_mm: null } };
  }
  if (shape.kind === "prism") {
    const [height_mm, width_mm] = [spanOf(shape.outline, 0), spanOf(shape.outline, 1)].sort((a, b) => b - a) as [
      number,
      number,
    ];
    if (shape.thickness_mm < BAR_SHARE * height_mm || shape.holes.length > 1) return null;
    const middle = (axis: 0 | 1): number => {
      const values = shape.outline.map((corner) => corner[axis]);
      return (Math.min(...values) + Math.max(...values)) / 2;
    };
    const along = cross(shape.u, shape.v);
    const at = (t: number): Vec3 =>
      applyPose(
        pose,
        [0, 1, 2].map(
          (i) => shape.origin[i]! + middle(0) * shape.u[i]! + middle(1) * shape.v[i]! + t * along[i]!,
        ) as unknown as Vec3,
      );
    const [hole] = shape.holes;
    const wall_mm = hole ? (Math.max(height_mm, width_mm) - Math.max(spanOf(hole, 0), spanOf(hole, 1))) / 2 : null;
    return {
      path: [at(0), at(shape.thickness_mm)],
      bend_mm: null,
      size: { kind: "section", height_mm, width_mm, wall_mm },
    };
  }
  return null;
}

function spanOf(outline: readonly (readonly [number, number])[], axis: 0 | 1): number {
  const values = outline.map((corner) => corner[axis]);
  return Math.max(...values) - Math.min(...values);
}
