import * as z from "zod";
import {
  above,
  angle_deg,
  choice,
  direction,
  length_mm,
  list,
  name,
  number,
  point,
  record,
  size_mm,
  vector_mm,
} from "./values.ts";

/** A bolt head, nut or plug that somebody must get at. */
const fastener = record({
  id: name,
  /** The part in or on which it sits, or the frame that it rides on: chassis, powertrain, carrier, a member. */
  on: name,
  /** The face that the tool sits on. */
  at: point,
  /** The way the tool comes off. */
  facing: direction,
  /** Across the flats. */
  size_mm: size_mm.optional(),
});

const tool = z.discriminatedUnion(
  "kind",
  [
    /** A socket with its extension: a cylinder along the way the fastener faces. */
    record({ id: name, kind: z.literal("socket"), diameter_mm: size_mm, length_mm: size_mm }),
    /** A flat bar with a round head, turned about the fastener. */
    record({
      id: name,
      kind: z.literal("spanner"),
      /** From the fastener's centre to the end of the handle. */
      length_mm: size_mm,
      /** Of head and handle. */
      width_mm: size_mm,
      thickness_mm: size_mm,
      /** How far it must swing; left out: 30, what a bi-hexagon ring needs to be put on anew. */
      swing_deg: above(0, 360, "degrees").optional(),
      /** How far it lies off the fastener's face, as a ratchet on a socket does. */
      off_mm: length_mm.optional(),
    }),
    /** A hand and arm: round bars one after another from the fastener, each by so much forward, out and up. */
    record({
      id: name,
      kind: z.literal("arm"),
      diameter_mm: size_mm,
      by: list(vector_mm, 1, 20),
      off_mm: length_mm.optional(),
    }),
  ],
  { error: "a tool: a record with a kind" },
);

const step = z.discriminatedUnion(
  "kind",
  [
    record({ kind: z.literal("straight"), way: direction, length_mm: above(0, 5000, "mm") }),
    record({ kind: z.literal("turn"), about: point, axis: direction, angle_deg }),
    /** A member, with what is one with it, swung about one of its bushes to make room. */
    record({
      kind: z.literal("swing"),
      member: name,
      /** Left out: the member's mount on the chassis, and upright. */
      about: point.optional(),
      axis: direction.optional(),
      angle_deg: angle_deg.optional(),
      /** In place of an angle: as far as it takes to bring a place of it so far. */
      frees: record({ at: point, way: direction, mm: above(0, 5000, "mm") }).optional(),
      /** What the bush gives before it is hurt; left out: what is told of the joint. */
      allows_deg: number(0, 180, "degrees").optional(),
    }),
  ],
  { error: "a step: a record with a kind" },
);

const common = {
  id: name,
  /** Of the two sides, where it is not asked of both. */
  side: choice(["left", "right"]).optional(),
  /** Parts that are off by then, or joints whose bolt is out. */
  removed: list(name, 0, 200).optional(),
};

const job = z.discriminatedUnion(
  "kind",
  [
    record({ ...common, kind: z.literal("reach"), fastener: name, tools: list(name, 1, 20) }),
    /** Without steps: which straight way out is free. */
    record({ ...common, kind: z.literal("out"), parts: list(name, 1, 20), steps: list(step, 0, 50) }),
  ],
  { error: "a job: a record with a kind" },
);

/** What must be got at and taken out once the car is built. Nothing is drawn or checked for clearance from it. */
export const service = record({
  fasteners: list(fastener, 0, 500).optional(),
  tools: list(tool, 0, 100).optional(),
  jobs: list(job, 0, 200).optional(),
});
