import { above, choice, direction, length_mm, list, name, number, point, record, size_mm, text } from "./values.ts";

const times = number(-20, 20, "times the static wheel load");
const newtons = number(-1e6, 1e6, "N");
const mass_kg = above(0, 5000, "kg");
const target = above(0, 100);
const stress_MPa = above(0, 5000, "MPa");

/** The ground's force on the tyre is the sum of both records; what is left out is nothing. */
const loadCase = record({
  id: name,
  /** Multiples of the static wheel load, which is the corner's mass times 9.80665 m/s². */
  timesStatic: record({ forward: times.optional(), out: times.optional(), up: times.optional() }).optional(),
  force_N: record({ forward: newtons.optional(), out: newtons.optional(), up: newtons.optional() }).optional(),
  /** How the wheel's torque is held: by a brake on the carrier, by the driveshaft, or not at all. */
  torque: choice(["carrier", "shaft", "free"]).optional(),
  /** Body roll that winds the anti-roll bar up; positive: this wheel is the one that is pushed up. */
  roll_deg: number(-15, 15, "degrees").optional(),
});

const material = record({
  id: name,
  yield_MPa: stress_MPa,
  ultimate_MPa: stress_MPa,
  elastic_MPa: above(0, 1e6, "MPa").optional(),
  /** Correlation factor of fillet welds, EN 1993-1-8 table 4.1. */
  weldFactor: number(0.5, 1.5).optional(),
  source: text(300).optional(),
});

const tube = record({
  member: name,
  /** One stretch or leg of the member; left out: every one. */
  section: choice(["inboard", "outboard", "front", "rear"]).optional(),
  diameter_mm: size_mm,
  /** As thick as the radius or more: a solid bar. */
  wall_mm: size_mm,
  material: name,
  /** How the ends are held against buckling: 1 pinned (rod ends), 2 fixed and pinned, 4 fixed, 0.25 fixed and free. */
  endConstant: number(0.25, 4).optional(),
  /** How far a bent or cranked bar strays from the straight line between its ends; left out: as a link's tube is drawn. */
  bow_mm: length_mm.optional(),
  /** Where an arm in one piece with the hub is cut: the bending there comes from the mounts beyond it. */
  cut: point.optional(),
  target: target.optional(),
});

export const THREADS = ["M6", "M8", "M10", "M12", "M14", "M16", "M20"] as const;
export const BOLT_CLASSES = ["4.6", "5.6", "8.8", "10.9", "12.9"] as const;

const bolt = record({
  joint: name,
  thread: choice(THREADS),
  class: choice(BOLT_CLASSES),
  /** Shear planes: 1 an overhung bolt, 2 held on both sides. */
  planes: number(1, 2).refine((value) => Number.isInteger(value), { error: "1 or 2" }),
  /** What the shear plane runs through; left out: the thread, which is weaker. */
  through: choice(["thread", "shank"]).optional(),
  /** The bolt's own axis, where it is not the member's bush axis or inboard line. */
  axis: direction.optional(),
  target: target.optional(),
});

const plate = record({
  joint: name,
  /** Plates that share the force: 2 for a clevis. */
  count: number(1, 2).refine((value) => Number.isInteger(value), { error: "1 or 2" }),
  thickness_mm: size_mm,
  hole_mm: size_mm,
  /** Centre of the hole to the edge that the pull goes towards. */
  end_mm: size_mm,
  /** Centre of the hole to the nearest edge beside it. */
  side_mm: size_mm,
  material: name,
  target: target.optional(),
});

const weld = record({
  joint: name,
  /** Throat of the fillet; or its leg. */
  throat_mm: size_mm.optional(),
  leg_mm: size_mm.optional(),
  /** Of one run, without its craters. */
  length_mm: size_mm,
  runs: number(1, 20).refine((value) => Number.isInteger(value), { error: "a whole number from 1 to 20" }),
  /** Height of the joint above the weld. */
  lever_mm: length_mm.optional(),
  material: name,
  target: target.optional(),
});

const rating = record({
  joint: name,
  /** The maker's static rating. */
  static_N: above(0, 1e7, "N"),
  source: text(300).optional(),
  target: target.optional(),
});

/** What the wheels carry, and the sizes that the screening asks for. Nothing is drawn or checked for clearance from it. */
export const loads = record({
  /** What a scale under this wheel reads at ride height. */
  cornerMass_kg: mass_kg.optional(),
  /** The right wheel's, where it is another. */
  right: record({ cornerMass_kg: mass_kg }).optional(),
  /** Of that, what moves with the wheel: wheel, hub, brake, half of arms, damper and shaft. */
  unsprung_kg: mass_kg.optional(),
  /** Where the brakes sit: on the hub, or at the differential. */
  brakes: choice(["outboard", "inboard"]).optional(),
  cases: list(loadCase, 0, 100).optional(),
  /** The builder's own wanted factor against each part's limit. */
  target: target.optional(),
  materials: list(material, 0, 100).optional(),
  tubes: list(tube, 0, 200).optional(),
  bolts: list(bolt, 0, 200).optional(),
  plates: list(plate, 0, 200).optional(),
  welds: list(weld, 0, 200).optional(),
  ratings: list(rating, 0, 200).optional(),
});
