import type { JointExcuse, Motion, SweepVariant } from "../clearance/types.ts";
import type { PlannedPair } from "./plan.ts";

/**
 * What one pair's sweep depends on, as text: both solids, their motions in each pose, the way there, the range, the
 * clearance asked for and the excused joints. Equal fingerprints have equal sweeps, so a finished sweep can be kept from check to check.
 */
export function fingerprint({ first, second, sweep }: PlannedPair): string {
  const [excuses, variants] = [textOf(sweep.excuses, excusesText), textOf(sweep.variants, variantsText)];
  return `${first.content}|${second.content}|${sweep.required_mm}|${excuses}|${variants}`;
}

/** Pairs that meet in the same way share these lists (plan.ts): their texts are made once. */
const texts = new WeakMap<readonly JointExcuse[] | readonly SweepVariant[], string>();

function textOf<T extends readonly JointExcuse[] | readonly SweepVariant[]>(
  list: T,
  make: (list: T) => string,
): string {
  let text = texts.get(list);
  if (text === undefined) {
    text = make(list);
    texts.set(list, text);
  }
  return text;
}

function excusesText(excuses: readonly JointExcuse[]): string {
  return JSON.stringify(excuses.map(({ centreInA, centreInB, radius_mm }) => [centreInA, centreInB, radius_mm]));
}

function variantsText(variants: readonly SweepVariant[]): string {
  return variants
    .map(({ pose, a, b, from_mm, to_mm, rock }) =>
      [pose, from_mm, to_mm, digest(a), digest(b), rock?.content].join(","),
    )
    .join(";");
}

const digests = new WeakMap<Float64Array, string>();

/** 64 bits over the knots' travels and poses, by the FNV-1a scheme on 32-bit words in two lanes (Fowler, Noll, Vo 1991). */
function digest({ travel_mm, poses }: Motion): string {
  let text = digests.get(poses);
  if (text === undefined) {
    text = `${hashOf(travel_mm)}${hashOf(poses)}`;
    digests.set(poses, text);
  }
  return text;
}

function hashOf(values: Float64Array): string {
  const words = new Uint32Array(values.buffer, values.byteOffset, values.length * 2);
  let low = 0x811c9dc5;
  let high = 0xcbf29ce4;
  for (const word of words) {
    low = Math.imul(low ^ word, 0x01000193);
    high = Math.imul(high ^ (word + low), 0x01000193);
  }
  return (low >>> 0).toString(36) + (high >>> 0).toString(36);
}
