import type { Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { isEntryRecord, isVector } from "../../scene/pointResolver.ts";
import { isPartEnd } from "../../scene/pointRide.ts";
import { type ListedPoint, listPoints, usersOfPoint } from "../../scene/points.ts";
import type { PointUse } from "../../scene/pointUses.ts";
import type { en } from "../text/en/index.ts";
import { listText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { capital, nameOf } from "../words/names.ts";

/**
 * cut and bolt move steel; measured corrects the drawing and moves nothing on the car, so donor parts allow it too. The
 * document takes cut and measured in the same way: the point is drawn elsewhere.
 */
export type Meaning = "cut" | "bolt" | "measured";

export interface PointInfo {
  readonly name: string;
  /** What people call it: "Upper link, inboard end"; the bare name where no part ends here. */
  readonly title: string;
  /** Where the mount is now (bolted-up place before the drawn one), car coordinates, mm. */
  readonly place: Vec3;
  /** The point it is drawn from, and follows until it is moved itself; null: none. */
  readonly hangsOn: string | null;
  /** Where it is drawn, when the mount stands elsewhere. */
  readonly drawnAt: Vec3 | null;
  readonly tolerance_mm: number | null;
  readonly how: string | null;
  readonly side: "chassis" | "wheel" | "powertrain" | "other";
  /** Id of the member that ends here, for the view; null: none does. */
  readonly memberId: string | null;
  /** Names of parts that end here. */
  readonly carries: readonly string[];
  /** Names of other parts drawn from it: brackets, tubes. */
  readonly followers: readonly string[];
  /** Why a meaning is not to be had here; null: it is. */
  readonly refusals: Readonly<Record<Meaning, string | null>>;
}

const known = new WeakMap<SceneDocument, readonly PointInfo[]>();

/**
 * Every named point of the document; the same document gives the same list. It is empty while the document's points do
 * not resolve, which the engine tells as the scene's error.
 */
export function pointInfos(document: SceneDocument): readonly PointInfo[] {
  const before = known.get(document);
  if (before) return before;
  const infos = resolvablePoints(document).map((point): PointInfo => {
    const uses = usersOfPoint(document, point.name);
    const ends = uses.filter(isPartEnd);
    const carries = unique(ends.map((use) => partName(use, document)));
    const drawn = unique(uses.filter((use) => !isPartEnd(use)).map((use) => partName(use, document)));
    return {
      name: point.name,
      title: titleOf(point.name, ends, document),
      place: point.boltedUpAt ?? point.at,
      hangsOn: hangsOn(document, point.name),
      drawnAt: point.boltedUpAt ? point.at : null,
      tolerance_mm: point.tolerance_mm,
      how: point.how,
      side: sideOf(point.isMount, ends),
      memberId: ends.find((use) => use.user === "member")?.id ?? null,
      carries,
      followers: drawn.filter((part) => !carries.includes(part)),
      refusals: refusalsOf(point.isMount, ends, document),
    };
  });
  known.set(document, infos);
  return infos;
}

function resolvablePoints(document: SceneDocument): readonly ListedPoint[] {
  try {
    return listPoints(document);
  } catch (error) {
    if (error instanceof InputError) return [];
    throw error;
  }
}

function sideOf(isMount: boolean, ends: readonly PointUse[]): PointInfo["side"] {
  if (isMount) return "chassis";
  if (ends.length === 0) return "other";
  return ends.every((use) => use.path.endsWith(".inner")) ? "powertrain" : "wheel";
}

function hangsOn(document: SceneDocument, name: string): string | null {
  const entry = document.points[name];
  const at = entry === undefined || !isEntryRecord(entry) ? entry : entry.at;
  if (at === undefined || isVector(at)) return null;
  return typeof at === "string" ? at : at.from;
}

/** The meaning that a move of the point has unless the builder says otherwise. */
export function usualMeaning(info: PointInfo): Meaning {
  return (["cut", "bolt"] as const).find((meaning) => info.refusals[meaning] === null) ?? "measured";
}

function refusalsOf(isMount: boolean, ends: readonly PointUse[], document: SceneDocument): PointInfo["refusals"] {
  const donors = unique(ends.filter((use) => isDonor(use, document)).map((use) => partName(use, document)));
  return {
    cut: donors.length > 0 ? t("points.refusals.cut", { parts: listText(donors) }) : null,
    bolt: isMount ? null : t("points.refusals.bolt"),
    measured: null,
  };
}

function isDonor(use: PointUse, document: SceneDocument): boolean {
  return use.user === "member" && document.members.find((member) => member.id === use.id)?.stock === "donor";
}

type End = keyof (typeof en)["points"]["ends"];
const ENDS: ReadonlySet<string> = new Set<End>([
  "at",
  "inboard",
  "outboard",
  "front",
  "rear",
  "top",
  "bottom",
  "centre",
  "pivot",
  "arm",
  "pickup",
  "inner",
  "outer",
]);

function endName(end: string): string | null {
  return ENDS.has(end) ? t(`points.ends.${end as End}`) : null;
}

function titleOf(name: string, ends: readonly PointUse[], document: SceneDocument): string {
  const [first] = ends;
  if (!first) return capital(name);
  const end = endName(first.path.slice(first.path.lastIndexOf(".") + 1));
  const part = partName(first, document);
  return end === null ? part : t("points.titleWithEnd", { part, end });
}

function partName(use: PointUse, document: SceneDocument): string {
  switch (use.user) {
    case "datum":
    case "service":
      return t(`points.parts.${use.user}`, { id: use.id });
    case "powertrain":
    case "antiRollBar":
    case "driveshaft":
    case "damper":
    case "wheel":
      return t(`points.parts.${use.user}`);
    default:
      return nameOf(use.id, document);
  }
}

function unique(names: readonly string[]): string[] {
  return [...new Set(names)];
}
