import "../scene/withoutEval.ts";
import { z } from "zod";
import {
  CARD_FORMAT,
  CARD_VERSION,
  type Card,
  type CardPhoto,
  type CardPicture,
  PHOTO_TYPES,
  VIEW_STATES,
} from "./entry.ts";
import { photoTypeOf } from "./photo.ts";

const mm = z.number();
const point = z.tuple([mm, mm, mm]);
const side = z.enum(["left", "right"]);
const verdict = z.enum(["clash", "tight", "clear", "accepted"]);
const share = z.number().min(0).max(1).optional();
const stateAt = z.strictObject({ travel_mm: mm, pose: z.string(), share });
const span = z.tuple([mm, mm]);

const curvePoint = z.strictObject({
  travel_mm: mm,
  toe_deg: z.number(),
  camber_deg: z.number(),
  halfTrack_mm: mm,
  wheelbaseShift_mm: mm,
  rollCentre_mm: mm,
  damper_mm: mm.nullable(),
  damperRatio: z.number().nullable(),
  shaft_mm: mm.nullable(),
  innerAngle_deg: z.number().nullable(),
  outerAngle_deg: z.number().nullable(),
});

const pair = z.strictObject({
  side: z.enum(["left", "right", "both"]),
  a: z.string(),
  b: z.string(),
  required_mm: mm,
  clearance_mm: mm,
  verdict,
  measure: z.enum(["surface", "convex", "inside", "sampled"]),
  at: stateAt,
  pointA: point,
  pointB: point,
  within_mm: mm.optional(),
  give_mm: mm.optional(),
  open: z.array(z.string()).optional(),
  clashTravel_mm: z.array(span),
  partingOfA: point,
  profile: z.array(span),
  byPose: z.record(z.string(), mm),
  farther: z.array(z.string()).optional(),
  keys: z.tuple([z.string(), z.string()]),
  why: z.string().optional(),
});

const limit = z.strictObject({
  side,
  what: z.enum([
    "shaft-length",
    "inner-angle",
    "outer-angle",
    "damper-length",
    "stop",
    "strap",
    "coil-bind",
    "joint-tilt",
    "joint-twist",
    "binds",
  ]),
  joint: z.string().optional(),
  verdict: z.enum(["clash", "clear"]),
  value: z.number(),
  limit: z.number(),
  at: stateAt,
  passedAt_mm: mm.nullable(),
});

const wheel = z.strictObject({
  side,
  now: curvePoint.nullable(),
  change: z.strictObject({
    toe_deg: z.number(),
    camber_deg: z.number(),
    halfTrack_mm: mm,
    plunge_mm: mm.nullable(),
  }),
  bindsAt_mm: mm.nullable(),
});

const picture = z.strictObject({
  png: z.custom<Uint8Array>(
    (value) => value instanceof Uint8Array && photoTypeOf(value) === "image/png",
    "not a PNG picture",
  ),
  width: z.int().positive(),
  height: z.int().positive(),
}) satisfies z.ZodType<CardPicture>;

const view = z.strictObject({
  name: z.string(),
  state: z.enum(VIEW_STATES),
  travel_mm: z.strictObject({ left: mm, right: mm }),
  pose: z.string(),
  share,
  picture,
});

const photo = z
  .strictObject({
    name: z.string(),
    caption: z.string(),
    type: z.enum(PHOTO_TYPES),
    bytes: z.custom<Uint8Array>((value) => value instanceof Uint8Array, "not the bytes of a photo"),
    width: z.int().positive(),
    height: z.int().positive(),
  })
  .refine(({ type, bytes }) => photoTypeOf(bytes) === type, {
    path: ["bytes"],
    message: "not a photo of its type",
  }) satisfies z.ZodType<CardPhoto>;

/** A card as it is stored; its scene document is checked by the scene's own reader (read.ts). */
export const cardSchema = z.strictObject({
  format: z.literal(CARD_FORMAT),
  version: z.literal(CARD_VERSION),
  id: z.string().min(1),
  number: z.int().positive(),
  title: z.string(),
  made: z.iso.datetime(),
  note: z.string(),
  revision: z.string(),
  unit: z.enum(["mm", "in"]),
  fileName: z.string(),
  sceneTitle: z.string(),
  travel_mm: z.strictObject({ left: mm, right: mm }),
  pose: z.string(),
  share,
  poses: z.array(z.string()),
  range_mm: z.strictObject({ bump: mm, droop: mm }),
  summary: z.strictObject({ clash: z.int(), tight: z.int(), clear: z.int(), accepted: z.int() }),
  pairs: z.array(pair),
  limits: z.array(limit),
  points: z.array(
    z.strictObject({ name: z.string(), at: point, tolerance_mm: mm.nullable(), how: z.string().nullable() }),
  ),
  inQuestion: z.array(z.string()),
  wheels: z.array(wheel),
  picture: picture.nullable(),
  views: z.array(view),
  photos: z.array(photo),
  document: z.custom<Card["document"]>((value) => typeof value === "object" && value !== null, "not a scene"),
  check: z.string(),
  caution: z.string(),
}) satisfies z.ZodType<Card>;
