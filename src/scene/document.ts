import * as z from "zod";
import { allowances } from "./allowancesDocument.ts";
import { joints, vehicle } from "./jointsDocument.ts";
import { loads } from "./loadsDocument.ts";
import { measured } from "./measuredDocument.ts";
import { measures } from "./measuresDocument.ts";
import { made } from "./recipes/made.ts";
import { service } from "./serviceDocument.ts";
import { setup } from "./setup/setupDocument.ts";
import { shape } from "./shapeDocument.ts";
import { tubeEnds } from "./tubeEndsDocument.ts";
import {
  above,
  angle_deg,
  choice,
  type DeepReadonly,
  direction,
  list,
  name,
  number,
  point,
  record,
  size_mm,
  text,
  turn_deg,
  vector_mm,
} from "./values.ts";

export const SCENE_FORMAT = "elbowroom.scene";
export const SCENE_VERSION = 1;

const pointEntry = z.union(
  [vector_mm, record({ at: point, tolerance_mm: number(0, 1000, "mm").optional(), how: text(500).optional() })],
  { error: '[x, y, z] in mm or { "at": POINT, "tolerance_mm"?, "how"? }' },
);

const datum = record({ id: name, at: point, forward: direction.optional(), up: direction.optional() });

const wheel = record({
  centre: point,
  tyre: text(40, 'a tyre size such as "205/55R16"'),
  rimWidth_in: number(2, 20, "inches"),
  rimOffset_mm: number(-300, 300, "mm"),
  toe_deg: number(-30, 30, "degrees"),
  camber_deg: number(-30, 30, "degrees"),
});

const travel = record({
  bump_mm: number(0, 1000, "mm"),
  droop_mm: number(0, 1000, "mm"),
  step_mm: number(0.1, 1000, "mm"),
});

const stockAndBody = {
  stock: choice(["made", "donor"]).optional(),
  body: shape.nullable().optional(),
  /** How `body` was made. */
  made: made.optional(),
};

/** Number of the carrier's six freedoms that each kind of member takes away; the wheel's travel is the one that is left. */
export const CONSTRAINTS = { ball: 3, link: 1, wishbone: 2, hinge: 5, strut: 2 } as const;

const member = z.discriminatedUnion(
  "kind",
  [
    record({ id: name, kind: z.literal("ball"), at: point, ...stockAndBody }),
    record({
      id: name,
      kind: z.literal("link"),
      inboard: point,
      outboard: point,
      diameter_mm: size_mm.optional(),
      bushAxis: direction.optional(),
      ...stockAndBody,
    }),
    record({
      id: name,
      kind: z.literal("wishbone"),
      front: point,
      rear: point,
      outboard: point,
      diameter_mm: size_mm.optional(),
      ...stockAndBody,
    }),
    record({ id: name, kind: z.literal("hinge"), front: point, rear: point, ...stockAndBody }),
    record({ id: name, kind: z.literal("strut"), top: point, bottom: point, ...stockAndBody }),
  ],
  { error: "a member: a record with a kind" },
);

const damper = record({
  top: point,
  bottom: point,
  on: name,
  closed_mm: size_mm,
  open_mm: size_mm,
  body_mm: size_mm,
  spring_mm: size_mm.optional(),
  springRate_N_per_mm: above(0, 10_000, "N/mm").optional(),
  /** The bare spring's length; with all its turns touching; between its seats with the car at ride height. */
  springFree_mm: size_mm.optional(),
  springSolid_mm: size_mm.optional(),
  springAtRide_mm: size_mm.optional(),
  stopTouches_mm: size_mm.optional(),
  stopSolid_mm: size_mm.optional(),
  /** The damper's length at which a droop strap is tight. */
  strapTight_mm: size_mm.optional(),
});

const antiRollBar = record({
  pivot: point,
  axis: direction,
  arm: point,
  pickup: point,
  on: name,
  diameter_mm: size_mm,
});

const jointAngle_deg = above(0, 90, "degrees");
const shaftJoint = choice(["constant velocity", "universal"]).optional();

const shaftInner = {
  /** Of the bar alone, end to end, as it was measured beside the joints' shortest and longest. */
  bar_mm: size_mm.optional(),
  shortest_mm: size_mm.optional(),
  longest_mm: size_mm.optional(),
  innerAngleLimit_deg: jointAngle_deg.optional(),
};

const driveshaft = record({
  inner: point,
  innerAxis: direction,
  outer: point,
  diameter_mm: size_mm,
  ...shaftInner,
  outerAngleLimit_deg: jointAngle_deg.optional(),
  /** "universal": a single cross; left out: a joint that runs true. */
  innerJoint: shaftJoint,
  outerJoint: shaftJoint,
  /** The right side's inner end, in car coordinates, where it is not the left one's image. */
  right: record({ inner: point.optional(), innerAxis: direction.optional(), ...shaftInner }).optional(),
});

const travelRange = z.tuple([number(-1000, 1000, "mm"), number(-1000, 1000, "mm")], {
  error: "[from, to] in mm of travel",
});

const powertrain = record({
  place: record({ shift_mm: vector_mm, turn_deg, about: point }).optional(),
  poses: list(
    record({
      id: name,
      about: point,
      axis: direction,
      angle_deg,
      shift_mm: vector_mm.optional(),
      within_mm: travelRange.optional(),
    }),
    0,
    50,
  ).optional(),
});

const body = record({
  id: name,
  on: name,
  shape,
  role: name.optional(),
  mirror: z.boolean({ error: "true or false" }).optional(),
  /** How `shape` was made. */
  made: made.optional(),
});

const clearances = record({
  default_mm: number(0, 1000, "mm"),
  jointRadius_mm: number(0, 1000, "mm").optional(),
  rules: list(record({ a: name, b: name, mm: number(0, 1000, "mm") }), 0, 1000).optional(),
  accept: list(
    record({ a: name, b: name, why: text(500, "the reason").min(1, { error: "the reason in a few words" }) }),
    0,
    1000,
  ).optional(),
});

/** Version 1 of the scene file, field by field. What one field means for another is checked by resolve.ts. */
export const sceneSchema = record({
  format: z.literal(SCENE_FORMAT),
  version: z.literal(SCENE_VERSION),
  title: text(200, "a title"),
  notes: text(20_000).optional(),
  sides: choice(["left", "right", "both"]),
  points: z.record(name, pointEntry, { error: 'a record of points { "NAME": [x, y, z] }' }),
  /** Where a mount of the left side really is after a move in which every part keeps its length. */
  boltedUp: z.record(name, vector_mm, { error: 'a record of places { "POINT": [x, y, z] }' }).optional(),
  measured: measured.optional(),
  measures: measures.optional(),
  /** How far the guided set-up of this scene has come. Nothing is drawn or checked from it. */
  setup: setup.optional(),
  datums: list(datum, 0, 100).optional(),
  wheel,
  travel,
  members: list(member, 1, 50),
  damper: damper.optional(),
  antiRollBar: antiRollBar.optional(),
  driveshaft: driveshaft.optional(),
  powertrain: powertrain.optional(),
  joints: joints.optional(),
  vehicle: vehicle.optional(),
  loads: loads.optional(),
  service: service.optional(),
  tubeEnds: tubeEnds.optional(),
  bodies: list(body, 0, 2000),
  tessellation_mm: number(0.005, 5, "mm").optional(),
  clearances,
  allowances: allowances.optional(),
});

/** The scene file as the builder wrote it: named points unresolved, nothing filled in. Files and edits are this. */
export type SceneDocument = DeepReadonly<z.infer<typeof sceneSchema>>;
export type MemberDocument = SceneDocument["members"][number];
export type BodyDocument = SceneDocument["bodies"][number];
export type PointDocument = DeepReadonly<z.infer<typeof point>>;
export type PointEntryDocument = SceneDocument["points"][string];
export type { MadeDocument } from "./recipes/made.ts";
export type { ShapeDocument } from "./shapeDocument.ts";
