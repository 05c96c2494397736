import type { CurvePoint, LimitVerdict, PairVerdict, Verdict } from "../check/result.ts";
import type { Vec3 } from "../maths/vec3.ts";
import type { SceneDocument } from "../scene/document.ts";
import type { Side } from "../scene/scene.ts";

export const CARD_FORMAT = "elbowroom.card";
/** 2 added revision, views and photos; cards of version 1 are read as having none. */
export const CARD_VERSION = 2;

/** What stands on every card: a gap on a screen is not a proof. */
export const CAUTION =
  "Geometry only, rigid parts: prove it by hand with the spring out, on stands. Strength, brakes and legality belong to local codes and a competent engineer.";

/** A decision as it stood: what touched, where, with the picture and the whole scene it was checked on. */
export interface Card {
  readonly format: typeof CARD_FORMAT;
  readonly version: typeof CARD_VERSION;
  readonly id: string;
  /** Counts up from 1 in the order cards are made; a deleted number is not given again. */
  readonly number: number;
  readonly title: string;
  /** When it was made, ISO 8601 in UTC. */
  readonly made: string;
  readonly note: string;
  /** Of what is built, as the builder counts: "A", "B"; "" where nobody does. */
  readonly revision: string;
  /** Unit the builder was reading in. Every length below is in mm whatever it is. */
  readonly unit: "mm" | "in";
  readonly fileName: string;
  readonly sceneTitle: string;
  /** The state that the picture shows. */
  readonly travel_mm: Readonly<Record<Side, number>>;
  readonly pose: string;
  /** How far the engine had got from rest to the pose; left out where it had got there. */
  readonly share?: number | undefined;
  /** Every powertrain pose that was checked, "rest" first. */
  readonly poses: readonly string[];
  readonly range_mm: { readonly bump: number; readonly droop: number };
  readonly summary: Readonly<Record<Verdict, number>>;
  /** Every pair that was checked, worst first. */
  readonly pairs: readonly PairVerdict[];
  readonly limits: readonly LimitVerdict[];
  /** Every named hard point, in car coordinates (mm). */
  readonly points: readonly CardPoint[];
  /** Names of the points on the parts that the worst verdicts are about. */
  readonly inQuestion: readonly string[];
  readonly wheels: readonly CardWheel[];
  /** What the builder looked at, in the state above. */
  readonly picture: CardPicture | null;
  /** Further pictures of the same scene, each in a state of its own. */
  readonly views: readonly CardView[];
  /** What the builder photographed, in the order it was added. */
  readonly photos: readonly CardPhoto[];
  readonly document: SceneDocument;
  /** Ties the card to its scene and its verdicts: sixteen hex digits, shown short. */
  readonly check: string;
  readonly caution: string;
}

export interface CardPoint {
  readonly name: string;
  /** Where the mount is: the place it was bolted up at, if that differs from where it is drawn. */
  readonly at: Vec3;
  readonly tolerance_mm: number | null;
  readonly how: string | null;
}

/** Readings of one wheel: at the card's travel, and how far each runs over the whole travel (largest less smallest). */
export interface CardWheel {
  readonly side: Side;
  readonly now: CurvePoint | null;
  readonly change: WheelChange;
  readonly bindsAt_mm: number | null;
}

export interface WheelChange {
  readonly toe_deg: number;
  readonly camber_deg: number;
  readonly halfTrack_mm: number;
  /** Of the shaft's length, over the curve (powertrain at rest). */
  readonly plunge_mm: number | null;
}

export interface CardPicture {
  readonly png: Uint8Array;
  readonly width: number;
  readonly height: number;
}

export const VIEW_STATES = ["ride", "bump", "droop", "worst"] as const;

/** Ride height, full bump, full droop, or where the worst clash is at its worst. */
export type ViewState = (typeof VIEW_STATES)[number];

export interface CardView {
  /** The builder's own name for it; "" where the state says enough. */
  readonly name: string;
  readonly state: ViewState;
  readonly travel_mm: Readonly<Record<Side, number>>;
  readonly pose: string;
  readonly share?: number | undefined;
  readonly picture: CardPicture;
}

export const PHOTO_TYPES = ["image/jpeg", "image/png", "image/webp"] as const;

export type PhotoType = (typeof PHOTO_TYPES)[number];

export interface CardPhoto {
  /** As the builder's file was called. */
  readonly name: string;
  readonly caption: string;
  readonly type: PhotoType;
  readonly bytes: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/** Cards' pairs name each other by side and ids, the key under which two cards are compared. */
export function cardPairKey(pair: Pick<PairVerdict, "side" | "a" | "b">): string {
  return `${pair.side}/${pair.a}/${pair.b}`;
}
