import type { PairVerdict } from "../../check/result.ts";
import type { Solid } from "../../geometry/solid.ts";
import {
  add,
  cross,
  distance,
  dot,
  length,
  normalise,
  scale,
  squareTo,
  subtract,
  type Vec3,
} from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import type { MadeDocument } from "../../scene/recipes/made.ts";
import { fine, fineNumber } from "../../scene/recipes/recipe.ts";
import { resolveScene } from "../../scene/resolve.ts";
import type { LinkMember, Scene } from "../../scene/scene.ts";
import type { Fit } from "../places/move.ts";
import { type Alteration, altered } from "./alter.ts";
import { PowertrainWays } from "./powertrainWays.ts";
import { smallestAmount } from "./search.ts";
import { WholeAsker } from "./wholeAsker.ts";

/** An alteration that clears, as small as it may be. */
export interface FoundAlteration {
  readonly alteration: Alteration;
  /** bolted: every part as long as it is. */
  readonly fit: Fit;
  /** How far the farthest point of what is altered goes, mm: the bow of a bent arm, half of what a bar loses in diameter. */
  readonly way_mm: number;
}

export interface AlterationRequest {
  readonly document: SceneDocument;
  readonly meshFiles: ReadonlyMap<string, Solid>;
  readonly targets: readonly PairVerdict[];
  readonly leaveOut: readonly string[];
  readonly within_mm: number;
}

/** A bar is not made thinner than this share of its diameter: common practice, no source, and no word of its strength. */
const THINNEST_SHARE = 0.5;
const DIAMETER_FINE_mm = 0.1;
/** Directions about an arm in which it may step aside. */
export const BENT_TOWARDS = 12;
export const BOW_STEP_mm = 2;
const BOW_FINE_mm = 0.2;
/** Share of the room between the steps that is left straight in the middle. */
export const FLAT_SHARES: readonly number[] = [0.25, 0.6, 0.95];
/** Centre-line radius of a bend in diameters of the tube: common practice, no source. */
const BEND_DIAMETERS = 2;

/** Kinds of alterations, each searched by itself: so many steps of progress. */
export const ALTERATION_SEARCHES = 4;

/**
 * The smallest alterations that clear the targets while every other pair keeps what it wants and every limit holds, over the whole travel
 * and all poses: bars thinner, links bent, the powertrain shifted along an axis and freely, and turned. Throws InputError, StudyStopped.
 */
export function findAlterations(
  request: AlterationRequest,
  onSearched: () => void,
  isCancelled: () => boolean,
): FoundAlteration[] {
  if (request.targets.length === 0) return [];
  const { document, meshFiles, targets, leaveOut } = request;
  const asker = new WholeAsker(meshFiles, leaveOut, isCancelled);
  const clears = (alteration: Alteration): boolean => {
    const changed = orNull(() => altered(document, alteration));
    return changed !== null && asker.clears(changed);
  };
  const scene = resolveScene(document);
  const inAll = (id: string) => targets.every(({ a, b }) => a === id || b === id);
  const bars = document.members.filter(({ id }) => inAll(id) && isMade(scene, id));
  const found: FoundAlteration[] = [];
  for (const bar of bars) found.push(...thinner(bar, scene, clears));
  onSearched();
  for (const bar of bars) found.push(...bent(bar, scene, request, clears));
  onSearched();
  const powertrain = new PowertrainWays(request, asker);
  found.push(...powertrain.shifts());
  onSearched();
  found.push(...powertrain.turns());
  onSearched();
  return found;
}

type Clears = (alteration: Alteration) => boolean;
type MemberDocument = SceneDocument["members"][number];

function isMade({ members }: Scene, id: string): boolean {
  return members.some((member) => member.id === id && member.stock === "made");
}

/** The thickest that clears: a thinner round bar lies within a thicker one, so that halving finds it. */
function thinner(member: MemberDocument, scene: Scene, clears: Clears): FoundAlteration[] {
  if ((member.kind !== "link" && member.kind !== "wishbone") || member.body !== undefined) return [];
  const was_mm = scene.members.find(({ id }) => id === member.id)!.diameter_mm;
  const thinnest_mm = was_mm * THINNEST_SHARE;
  const less = smallestAmount(
    { step: was_mm - thinnest_mm, reach: was_mm - thinnest_mm, fine: DIAMETER_FINE_mm },
    (by_mm) => clears({ kind: "thinner", member: member.id, diameter_mm: was_mm - by_mm, was_mm }),
  );
  if (less === null) return [];
  const alteration = { kind: "thinner" as const, member: member.id, diameter_mm: fineNumber(was_mm - less), was_mm };
  return [{ alteration, fit: "cut", way_mm: less / 2 }];
}

/** Of all directions and lengths of the straight middle the least bow. */
function bent(
  member: MemberDocument,
  scene: Scene,
  { targets, within_mm }: AlterationRequest,
  clears: Clears,
): FoundAlteration[] {
  if (member.kind !== "link") return [];
  const link = scene.members.find(({ id }) => id === member.id) as LinkMember;
  let best: FoundAlteration | null = null;
  for (const toward of towardsOf(link, targets)) {
    for (const flatShare of FLAT_SHARES) {
      const madeWith = (bow_mm: number) => bentAs(member, link, { bow_mm, toward, flatShare });
      const reach = Math.min(within_mm, best ? best.way_mm - BOW_FINE_mm : within_mm);
      const bow_mm = smallestAmount({ step: BOW_STEP_mm, reach, fine: BOW_FINE_mm }, (bow) => {
        const made = madeWith(bow);
        return made !== null && clears(made);
      });
      const alteration = bow_mm === null ? null : madeWith(bow_mm);
      if (alteration) best = { alteration, fit: "cut", way_mm: bow_mm! };
    }
  }
  return best ? [best] : [];
}

/** About the arm all round; the one nearest to where the first target parts comes first. */
export function towardsOf({ id, inboard, outboard }: LinkMember, targets: readonly PairVerdict[]): Vec3[] {
  const along = normalise(subtract(outboard, inboard));
  const [target] = targets;
  const wish = target ? scale(target.partingOfA, target.a === id ? 1 : -1) : ([0, 0, 1] as const);
  const flat = subtract(wish, scale(along, dot(wish, along)));
  const first = length(flat) > 0.05 ? normalise(flat) : squareTo(along);
  const across = cross(along, first);
  return Array.from({ length: BENT_TOWARDS }, (_, k) => {
    // nearest first: 0, 1, -1, 2, -2 and so on
    const turn = ((k % 2 === 1 ? 1 : -1) * Math.ceil(k / 2) * 2 * Math.PI) / BENT_TOWARDS;
    return fine(add(scale(first, Math.cos(turn)), scale(across, Math.sin(turn))));
  });
}

/** A tube of the link's diameter from eye to eye that steps aside; null where such bends do not fit between its ends. */
export function bentAs(
  member: Extract<MemberDocument, { kind: "link" }>,
  { inboard, outboard, diameter_mm: plain_mm, bushAxis }: LinkMember,
  { bow_mm, toward, flatShare }: { readonly bow_mm: number; readonly toward: Vec3; readonly flatShare: number },
): Alteration | null {
  const was = member.made as (MadeDocument & Readonly<Record<string, number>>) | undefined;
  if (member.body !== undefined && !was) return null;
  const diameter_mm = was?.diameter_mm ?? plain_mm;
  const wall_mm = Math.min(was?.wall_mm ?? 2.5, diameter_mm / 2);
  const bend_mm = BEND_DIAMETERS * diameter_mm;
  const ramp_mm = Math.max(bow_mm, 1.1 * Math.sqrt(bend_mm * bow_mm));
  const takes_mm = bend_mm * Math.tan(Math.atan2(bow_mm, ramp_mm) / 2);
  const eye_mm = was?.eye_mm ?? diameter_mm;
  const room_mm = distance(inboard, outboard) - 2 * ramp_mm - 2 * takes_mm;
  const flat_mm = Math.max(2 * takes_mm, flatShare * room_mm);
  if (flat_mm > room_mm) return null;
  const along = normalise(subtract(outboard, inboard));
  const made: MadeDocument = {
    as: "cranked arm",
    a: member.inboard,
    b: member.outboard,
    diameter_mm,
    wall_mm,
    bow_mm: fineNumber(bow_mm),
    toward: toward as unknown as MadeDocument["toward"] & Vec3,
    flat_mm: fineNumber(flat_mm),
    ramp_mm: fineNumber(ramp_mm),
    bend_mm: fineNumber(bend_mm),
    eye_mm,
    eyeWidth_mm: was?.eyeWidth_mm ?? diameter_mm,
    eyeAxis: (was?.eyeAxis ?? bushAxis ?? eyeAxisFor(along)) as unknown as Vec3 & MadeDocument["eyeAxis"],
  };
  return { kind: "bent", member: member.id, bow_mm: fineNumber(bow_mm), toward, made };
}

/** Square to the arm, as near to fore and aft as can be. */
function eyeAxisFor(along: Vec3): Vec3 {
  const flat = subtract([1, 0, 0], scale(along, along[0]));
  return fine(length(flat) > 0.05 ? normalise(flat) : squareTo(along));
}

function orNull<T>(make: () => T): T | null {
  try {
    return make();
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}
