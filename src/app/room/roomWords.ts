import type { PlaceLimits, Range } from "../../studies/places/placeLimits.ts";
import type { PlaceReason } from "../../studies/places/placeStudy.ts";
import { FREE, UNASKED } from "../../studies/room/room.ts";
import { jointText } from "../loads/partNames.ts";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { engineText, nameOf, nameWithin } from "../words/names.ts";
import { angleText, lengthText, numberText, wantedText } from "../words/number.ts";
import { travelText } from "../words/travel.ts";
import type { Way } from "./roomForm.ts";
import type { ComingMap } from "./roomTold.ts";

/** A scene or its document. */
interface Named {
  readonly members: readonly { readonly id: string; readonly kind: string }[];
}

const OF_PART = "member-length ";
const PLAIN = [
  "toe-change",
  "camber",
  "half-track-change",
  "damper-ratio",
  "shaft-length",
  "inner-angle",
  "outer-angle",
  "damper-length",
  "stop",
  "strap",
  "coil-bind",
  "binds",
] as const;
const ANGLES: ReadonlySet<string> = new Set(["toe-change", "camber", "inner-angle", "outer-angle"]);

/** A limit by the core's name: "Toe change", "Tilt of upper link, inboard end". */
export function limitText(what: string, scene: Named | null): string {
  if (what.startsWith(OF_PART)) {
    return t("room.limits.member-length", { part: nameWithin(what.slice(OF_PART.length), scene) });
  }
  const own = PLAIN.find((each) => each === what);
  if (own) return t(`room.limits.${own}`);
  const [kind = "", joint = ""] = what.split(" ");
  if (kind === "joint-tilt" || kind === "joint-twist") {
    return t(`room.limits.${kind}`, { joint: jointText(joint, scene) });
  }
  return what;
}

/** A value of that limit. */
function valueText(what: string, value: number, unit: Unit): string {
  if (ANGLES.has(what) || what.startsWith("joint-")) {
    return angleText(value, {
      digits: what === "toe-change" || what === "camber" ? 2 : 1,
      signed: what !== "inner-angle",
    });
  }
  if (what === "damper-ratio") return numberText(value, { digits: 2 });
  return lengthText(value, unit, { signed: what === "half-track-change" });
}

/** What refuses places, as it stands in a list. */
export function reasonText(reason: PlaceReason, scene: Named | null): string {
  if (reason.kind === "clearance") return pairText(reason, scene);
  if (reason.kind === "limit") return t(`room.limitOn.${reason.side}`, { limit: limitText(reason.what, scene) });
  return t(`room.reasons.${reason.kind}`);
}

function pairText(
  { side, a, b }: { readonly side: "left" | "right" | "both"; readonly a: string; readonly b: string },
  scene: Named | null,
  isWithin = false,
): string {
  return t(`room.pair.${side}`, { a: (isWithin ? nameWithin : nameOf)(a, scene), b: nameWithin(b, scene) });
}

/** What is left beyond what is wanted: "3.2 mm", "10 mm or more". */
export function leftText(map: ComingMap, place: number, unit: Unit): string {
  const margin_mm = map.margin_mm[place]!;
  return margin_mm >= map.marginUpTo_mm
    ? t("room.verdict.orMore", { size: wantedText(map.marginUpTo_mm, unit) })
    : lengthText(Math.max(0, margin_mm), unit);
}

/** What is told of one place, in a sentence. */
export function verdictText(
  map: ComingMap,
  limits: PlaceLimits,
  place: number,
  scene: Named | null,
  unit: Unit,
): string {
  const why = map.reason[place]!;
  const at = map.states[map.state[place]!];
  const where = { where: at ? travelText(at.travel_mm, unit) : "", engine: at ? engineText(at.pose) : "" };
  if (why === UNASKED) return t("room.verdict.unasked");
  if (why === FREE) {
    const left = leftText(map, place, unit);
    const pair = map.reasons[map.pair[place]!];
    if (pair?.kind !== "clearance" || !at) return t("room.verdict.free", { left });
    const values = { left, pair: pairText(pair, scene, true), ...where };
    return t(`room.verdict.${pair.side === "both" && isStill(map) ? "freeStill" : "freeBy"}`, values);
  }
  const reason = map.reasons[why]!;
  switch (reason.kind) {
    case "clearance": {
      const values = { pair: pairText(reason, scene), wanted: wantedText(reason.required_mm, unit), ...where };
      return t(`room.verdict.${at ? "close" : "closeStill"}`, values);
    }
    case "limit": {
      const limit = t(`room.limitOn.${reason.side}`, { limit: limitText(reason.what, scene) });
      const value = valueText(reason.what, map.value[place]!, unit);
      const asked = askedText(reason.what, map.value[place]!, limits, unit);
      if (asked && at) return t("room.verdict.limitAsked", { limit, value, asked, ...where });
      if (asked) return t("room.verdict.lengthAsked", { limit, value, asked });
      return at ? t("room.verdict.limit", { limit, value, ...where }) : t("room.verdict.length", { limit, value });
    }
    case "binds":
      return t("room.verdict.binds", { where: travelText(map.value[place]!, unit) });
    default:
      return t(`room.verdict.${reason.kind}`);
  }
}

/** The bound that the builder asks and the value passes; null for a limit of the scene itself. */
function askedText(what: string, value: number, limits: PlaceLimits, unit: Unit): string | null {
  const [least, most] = boundsOf(what, limits) ?? [];
  if (least === undefined || most === undefined) return null;
  return valueText(what, value < least ? least : most, unit);
}

function boundsOf(what: string, limits: PlaceLimits): Range | undefined {
  const { toeChange_deg: toe, camber_deg, halfTrackChange_mm: track, damperRatio, memberLength_mm } = limits;
  if (what === "toe-change" && toe !== undefined) return [-toe, toe];
  if (what === "half-track-change" && track !== undefined) return [-track, track];
  if (what === "camber") return camber_deg;
  if (what === "damper-ratio") return damperRatio;
  return what.startsWith(OF_PART) ? memberLength_mm?.[what.slice(OF_PART.length)] : undefined;
}

/** There is one state only: naming it says nothing. */
function isStill({ states }: ComingMap): boolean {
  return states.length === 1;
}

/** How far along a way: "20 back", "0". */
export function alongText(way: Way, by_mm: number, unit: Unit): string {
  if (Math.abs(by_mm) < 0.005) return "0";
  const size = lengthText(Math.abs(by_mm), unit).replace(/\.0 /, " ");
  return t(`room.slice.ends.${way}.${by_mm > 0 ? "more" : "less"}`, { size });
}
