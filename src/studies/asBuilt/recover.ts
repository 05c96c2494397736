import { compileCorner } from "../../kinematics/corner.ts";
import { readCorner } from "../../kinematics/readings.ts";
import { InputError } from "../../scene/error.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Mount } from "../jig/sensitivity.ts";
import { checkMeans, type Means, type Setting, settingsOf, withSettings } from "./means.ts";

/** Angles at ride height that are meant, and how far off they may stay. */
export interface Aim {
  readonly toe_deg: number;
  readonly camber_deg: number;
  readonly toeWithin_deg: number;
  readonly camberWithin_deg: number;
}

/** How means are set, and what the wheel then does. */
export interface Recovery {
  /** Those that are moved; none: nothing has to be. */
  readonly settings: readonly Setting[];
  readonly toe_deg: number;
  readonly camber_deg: number;
  /** Whether both angles are then as near as they may be; otherwise it is as near as the means get them. */
  readonly isEnough: boolean;
}

interface Angles {
  readonly toe_deg: number;
  readonly camber_deg: number;
}

/** As many means are set together at most. */
export const MOST_TOGETHER = 3;
/** Combinations of three means are looked through up to so many. */
const MOST_COMBINATIONS = 2_000_000;
/** How far a sum of single effects may be from what all together do: by the first order alone, degrees and share. */
const OFF_deg = 0.02;
const OFF_SHARE = 0.05;
const MOST_TRIED = 400;
const CLOSEST_TRIED = 20;

/**
 * The smallest settings of the means that bring toe and camber at ride height within what is aimed at, every other part as long as it is:
 * as few means as do, of these the least sum of ways, of these the nearest angles. Where none do, the nearest that they get. Sorted out by
 * the sum of what each setting does alone, and proved by the corner put together with all of them. Throws InputError for means that are not there.
 */
export function recoverAngles(scene: Scene, mounts: readonly Mount[], means: readonly Means[], aim: Aim): Recovery {
  for (const each of means) checkMeans(scene, mounts, each);
  const now = anglesOf(scene);
  if (!now) throw new InputError("out-of-reach", { path: "members" }, "the parts do not go together", "parts that do");
  const told = (settings: readonly Setting[], angles: Angles): Recovery => ({
    settings: settings.filter(({ by_mm }) => by_mm !== 0),
    ...angles,
    isEnough: missing(angles, aim) <= 1 + 1e-9,
  });
  if (missing(now, aim) <= 1) return told([], now);
  const effects = means.map((each) => effectsOf(scene, mounts, each, now));
  let nearest: Candidate[] = [];
  for (let count = 1; count <= Math.min(MOST_TOGETHER, means.length); count++) {
    const hopeful: Candidate[] = [];
    for (const chosen of subsets(effects, count)) {
      if (chosen.reduce((product, list) => product * list.length, 1) > MOST_COMBINATIONS) continue;
      each(chosen, now, (candidate) => {
        const lacks = missing(candidate, aim);
        if (lacks <= 1 + slackOf(candidate, now, aim)) hopeful.push(candidate);
        nearest = keptNearest(nearest, { ...candidate, lacks });
      });
    }
    hopeful.sort((a, b) => a.way_mm - b.way_mm || missing(a, aim) - missing(b, aim));
    let found: { readonly recovery: Recovery; readonly way_mm: number } | null = null;
    for (const { settings, way_mm } of hopeful.slice(0, MOST_TRIED)) {
      if (found && way_mm > found.way_mm + 1e-9) break;
      const angles = anglesOf(withSettings(scene, mounts, settings));
      if (!angles || missing(angles, aim) > 1 + 1e-9) continue;
      if (!found || missing(angles, aim) < missing(found.recovery, aim))
        found = { recovery: told(settings, angles), way_mm };
    }
    if (found) return found.recovery;
  }
  let best = told([], now);
  for (const { settings } of nearest) {
    const angles = anglesOf(withSettings(scene, mounts, settings));
    if (angles && missing(angles, aim) < missing(best, aim) - 1e-9) best = told(settings, angles);
  }
  return best;
}

/** Toe and camber at ride height; null where the parts do not go together. */
export function anglesOf(scene: Scene): Angles | null {
  try {
    const corner = compileCorner(scene, scene.sides[0]!);
    const { toe_deg, camber_deg } = readCorner(corner, corner.ridePose, "rest");
    return { toe_deg, camber_deg };
  } catch (error) {
    if (error instanceof InputError && error.code === "out-of-reach") return null;
    throw error;
  }
}

/** The worse of the two errors, as a share of what it may be. */
function missing({ toe_deg, camber_deg }: Angles, aim: Aim): number {
  return Math.max(
    Math.abs(toe_deg - aim.toe_deg) / aim.toeWithin_deg,
    Math.abs(camber_deg - aim.camber_deg) / aim.camberWithin_deg,
  );
}

function slackOf({ toe_deg, camber_deg }: Angles, now: Angles, aim: Aim): number {
  const off = (change: number) => OFF_deg + OFF_SHARE * Math.abs(change);
  return Math.max(
    off(toe_deg - now.toe_deg) / aim.toeWithin_deg,
    off(camber_deg - now.camber_deg) / aim.camberWithin_deg,
  );
}

/** What one setting does alone. */
interface Effect {
  readonly setting: Setting;
  readonly toe_deg: number;
  readonly camber_deg: number;
}

function effectsOf(scene: Scene, mounts: readonly Mount[], means: Means, now: Angles): Effect[] {
  return settingsOf(means).flatMap((by_mm): Effect[] => {
    if (by_mm === 0) return [];
    const setting = { means, by_mm };
    const angles = anglesOf(withSettings(scene, mounts, [setting]));
    if (!angles) return [];
    return [{ setting, toe_deg: angles.toe_deg - now.toe_deg, camber_deg: angles.camber_deg - now.camber_deg }];
  });
}

interface Candidate extends Angles {
  readonly settings: readonly Setting[];
  readonly way_mm: number;
}

/** Every combination of one setting of each. */
function each(chosen: readonly (readonly Effect[])[], now: Angles, take: (candidate: Candidate) => void): void {
  const [first, ...rest] = chosen;
  if (!first) return;
  const walk = (effects: readonly Effect[], left: readonly (readonly Effect[])[], so: Candidate): void => {
    const [next, ...others] = left;
    for (const { setting, toe_deg, camber_deg } of effects) {
      const candidate: Candidate = {
        settings: [...so.settings, setting],
        way_mm: so.way_mm + Math.abs(setting.by_mm),
        toe_deg: so.toe_deg + toe_deg,
        camber_deg: so.camber_deg + camber_deg,
      };
      if (next) walk(next, others, candidate);
      else take(candidate);
    }
  };
  walk(first, rest, { settings: [], way_mm: 0, ...now });
}

function keptNearest(
  kept: readonly (Candidate & { readonly lacks?: number })[],
  next: Candidate & { readonly lacks: number },
): (Candidate & { readonly lacks?: number })[] {
  const lacksOf = ({ lacks = Number.POSITIVE_INFINITY }: { readonly lacks?: number }) => lacks;
  if (kept.length >= CLOSEST_TRIED && lacksOf(kept.at(-1)!) <= next.lacks) return kept as Candidate[];
  return [...kept, next].sort((a, b) => lacksOf(a) - lacksOf(b)).slice(0, CLOSEST_TRIED);
}

function subsets<T>(list: readonly T[], count: number): T[][] {
  if (count === 0) return [[]];
  return list.flatMap((first, i) => subsets(list.slice(i + 1), count - 1).map((rest) => [first, ...rest]));
}
