import { shaftDesign } from "../kinematics/shaft.ts";
import { add, distance, mix, normalise, scale, subtract, type Vec3 } from "../maths/vec3.ts";
import type { Damper, Member, Scene, Shape, Side } from "../scene/scene.ts";
import type { ModelBody } from "./model.ts";

/** A body before its mesh is made. Shapes are drawn for the left corner, but for `driveshaft`, which has one a side. */
export interface BodyPlan {
  readonly id: string;
  /** Tells bodies of one id apart; "" for most. */
  readonly part: string;
  readonly mount: string;
  readonly role: string | null;
  readonly look: ModelBody["look"];
  readonly shape: Shape | { readonly kind: "tyre" } | { readonly kind: "rim" };
  /** JSON path of the shape in the scene, for errors. */
  readonly path: string;
}

const ROD_SHARE = 0.4;
const UPPER_EYE_MM = 35;
const ROD_END_GAP_MM = 15;
const UPPER_SEAT_MM = 30;
const LEAST_SPRING_MM = 20;
const DROP_LINK_MM = 12;

/** What wheel, members, damper, bar and shaft bring along under their own ids, as seen on `side` but drawn on the left. */
export function planOwnBodies(scene: Scene, side: Side): BodyPlan[] {
  const plans: BodyPlan[] = [
    { ...plain("tyre", "carrier", "wheel"), look: "tyre", shape: { kind: "tyre" } },
    { ...plain("rim", "carrier", "wheel"), shape: { kind: "rim" } },
  ];
  for (const [i, member] of scene.members.entries()) {
    const shape = member.body === undefined ? defaultShape(member) : member.body;
    if (shape) plans.push({ ...plain(member.id, member.id, `members[${i}].body`), shape });
  }
  if (scene.damper) plans.push(...planDamper(scene.damper));
  if (scene.antiRollBar) {
    const { pivot, arm, pickup, axis, diameter_mm } = scene.antiRollBar;
    // the bar runs on along its axis to the car's centre plane, where the other side's half meets it
    const toCentre = axis[1] === 0 ? pivot : add(pivot, scale(axis, -pivot[1] / axis[1]));
    const parts = [capsule(pivot, arm, diameter_mm)];
    if (distance(toCentre, pivot) > 0) parts.unshift(capsule(toCentre, pivot, diameter_mm));
    plans.push({ ...plain("bar", "bar", "antiRollBar"), shape: group(parts) });
    plans.push({ ...plain("bar-link", "bar-link", "antiRollBar"), shape: capsule(arm, pickup, DROP_LINK_MM) });
  }
  const shaft = shaftDesign(scene, side);
  if (scene.driveshaft && shaft) {
    const { diameter_mm } = scene.driveshaft;
    plans.push({
      ...plain("driveshaft", "driveshaft", "driveshaft"),
      shape: cylinder(shaft.inner, shaft.outer, diameter_mm),
    });
  }
  return plans;
}

function plain(id: string, mount: string, path: string): Omit<BodyPlan, "shape"> {
  return { id, part: "", mount, role: null, look: null, path };
}

function defaultShape(member: Member): Shape | null {
  switch (member.kind) {
    case "link":
      return capsule(member.inboard, member.outboard, member.diameter_mm);
    case "wishbone":
      return group([
        capsule(member.front, member.outboard, member.diameter_mm),
        capsule(member.rear, member.outboard, member.diameter_mm),
      ]);
    default:
      return null;
  }
}

/**
 * Tube and rod, and the spring as two sleeves of its outside diameter, one riding with each half, so that every length
 * between closed and open is covered without a body that changes its shape. The lower seat sits where the spring is as
 * long as it was measured (open to more than twice its closed length, its middle is left out there); else where half the
 * open spring still fits into the closed one: then neither sleeve stands past the other's seat.
 */
function planDamper(damper: Damper): BodyPlan[] {
  const { top, bottom, closed_mm, open_mm, body_mm, spring_mm } = damper;
  const design_mm = distance(top, bottom);
  const down = normalise(subtract(bottom, top));
  const fromTop = (mm: number): Vec3 => add(top, scale(down, mm));
  const fromBottom = (mm: number): Vec3 => mix(bottom, top, mm / design_mm);
  const plans: BodyPlan[] = [
    {
      ...plain("damper-upper", "damper-upper", "damper"),
      shape: cylinder(top, fromTop(closed_mm - ROD_END_GAP_MM), body_mm * ROD_SHARE),
    },
    {
      ...plain("damper-lower", "damper-lower", "damper"),
      shape: cylinder(bottom, fromBottom(closed_mm - UPPER_EYE_MM), body_mm),
    },
  ];
  if (spring_mm === null) return plans;
  const { springAtRide_mm, springSolid_mm } = damper;
  const upperSeat_mm =
    springAtRide_mm === null ? UPPER_SEAT_MM : Math.max(0, Math.min(UPPER_SEAT_MM, design_mm - springAtRide_mm));
  const lowerSeat_mm =
    springAtRide_mm === null
      ? Math.max(0, Math.min(0.35 * closed_mm, 2 * closed_mm - open_mm - UPPER_SEAT_MM))
      : design_mm - springAtRide_mm - upperSeat_mm;
  // a spring that is coil-bound before the damper closes is never shorter than that
  const closedSpring_mm = Math.max(closed_mm - lowerSeat_mm - upperSeat_mm, springSolid_mm ?? LEAST_SPRING_MM);
  const sleeve_mm = Math.min(closedSpring_mm, (open_mm - lowerSeat_mm - upperSeat_mm) / 2);
  plans.push(
    {
      ...plain("spring", "damper-upper", "damper"),
      part: "upper",
      look: "coil",
      shape: cylinder(fromTop(upperSeat_mm), fromTop(upperSeat_mm + sleeve_mm), spring_mm),
    },
    {
      ...plain("spring", "damper-lower", "damper"),
      part: "lower",
      look: "coil",
      shape: cylinder(fromBottom(lowerSeat_mm), fromBottom(lowerSeat_mm + sleeve_mm), spring_mm),
    },
  );
  return plans;
}

const nowhere = { at: null, turn_deg: null } as const;

function capsule(from: Vec3, to: Vec3, diameter_mm: number): Shape {
  return { ...nowhere, kind: "capsule", from, to, diameter_mm };
}

function cylinder(from: Vec3, to: Vec3, diameter_mm: number): Shape {
  return { ...nowhere, kind: "cylinder", from, to, diameter_mm };
}

function group(parts: readonly Shape[]): Shape {
  return { ...nowhere, kind: "group", parts };
}
