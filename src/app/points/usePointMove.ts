import { distance, type Vec3 } from "../../maths/vec3.ts";
import { fromDatum, toDatum } from "../../scene/datum.ts";
import type { Datum, Scene } from "../../scene/scene.ts";
import { app } from "../store/useApp.ts";
import { withinText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { moveWords } from "./moveWords.ts";
import { type Meaning, type PointInfo, usualMeaning } from "./pointInfo.ts";
import { usePointsLook } from "./pointsStore.ts";

export const DIRECTIONS = ["forward", "out", "up"] as const;
export type Direction = (typeof DIRECTIONS)[number];

/** The meaning a move of this point has now: what the builder chose, unless the point does not allow it. */
export function meaningFor(info: PointInfo, chosen: Meaning | null): Meaning {
  return chosen && info.refusals[chosen] === null ? chosen : usualMeaning(info);
}

export function datumOf(scene: Scene | null, id: string | null): Datum | null {
  return scene?.datums.find((datum) => datum.id === id) ?? null;
}

/** Holds the point, and outlines the part that ends there. */
export function holdPointOf(info: PointInfo): void {
  app.getState().holdPoint(info.name);
  if (info.memberId !== null) app.getState().hold(info.memberId);
}

/** A place read from the datum, in the order forward, out, up. */
export function readPlace(place: Vec3, datum: Datum | null): Readonly<Record<Direction, number>> {
  const { forward_mm, out_mm, up_mm } = toDatum(datum, place, "left");
  return { forward: forward_mm, out: out_mm, up: up_mm };
}

/** Tries the point with one coordinate changed; back at its kept place nothing is tried any more. */
export function tryCoordinate(info: PointInfo, direction: Direction, value_mm: number): void {
  const { tried, scene } = app.getState();
  const datum = datumOf(scene, usePointsLook.getState().datumId);
  const from = tried?.point === info.name ? tried.to : info.place;
  const now = { ...readPlace(from, datum), [direction]: value_mm };
  tryPlace(info, fromDatum(datum, { forward_mm: now.forward, out_mm: now.out, up_mm: now.up }, "left"));
}

export function tryPlace(info: PointInfo, to: Vec3): void {
  const meaning = meaningFor(info, usePointsLook.getState().meaning);
  if (distance(to, info.place) < 1e-6) app.getState().putBack();
  else app.getState().tryMove({ point: info.name, to, meaning: meaning === "bolt" ? "bolt" : "cut" });
}

/** Chooses what moves mean; a move that is being tried takes the new meaning. */
export function chooseMeaning(info: PointInfo, meaning: Meaning): void {
  usePointsLook.setState({ meaning });
  const { tried } = app.getState();
  if (tried?.point === info.name) tryPlace(info, tried.to);
}

/**
 * Keeps the tried move as a step named after the point and its way: "upper link, inboard end 12 back, 4 up". Not while it
 * cannot be shown, nor while a field holds what is no length: what stands there was meant, and is not in the move.
 */
export function keepTried(info: PointInfo): void {
  const { tried, scene, unit, error } = app.getState();
  const look = usePointsLook.getState();
  if (tried?.point !== info.name || error || look.troubled.size > 0) return;
  const { way } = moveWords(info.place, tried.to, datumOf(scene, look.datumId), unit);
  const meaning = meaningFor(info, look.meaning);
  app.getState().keepMove(t(`points.steps.${meaning}`, { point: withinText(info.title), way }));
}
