import type { Vec3 } from "../../maths/vec3.ts";
import { withoutAllowancesOf } from "../allowancesOfParts.ts";
import type { MemberDocument, SceneDocument } from "../document.ts";
import { CONSTRAINTS } from "../document.ts";
import { InputError } from "../error.ts";
import { withoutJointsOf } from "../jointsOfParts.ts";
import { withoutLoadsOf } from "../loadsOfParts.ts";
import { childPath, shortQuote } from "../path.ts";
import { pointResolver } from "../pointResolver.ts";
import { withoutServiceOf } from "../serviceOfParts.ts";
import { withoutTubeEndsOf } from "../tubeEnds.ts";
import { freeId, freePoint, readable } from "./parts.ts";

/** Edits of what is no part: points, members as a set, travel, wanted gaps, datums, the engine's motions. */

export type MemberKind = MemberDocument["kind"];

/** How many of the five constraints these members give. */
export function constraintsOf(members: readonly MemberDocument[]): number {
  return members.reduce((sum, { kind }) => sum + CONSTRAINTS[kind], 0);
}

/** Ends of each kind, with where a new one is put: from the wheel's centre, mm. */
export const MEMBER_ENDS: Readonly<Record<MemberKind, Readonly<Record<string, Vec3>>>> = {
  ball: { at: [450, -150, -100] },
  link: { inboard: [0, -420, 60], outboard: [0, -90, 80] },
  wishbone: { front: [110, -330, -110], rear: [-110, -330, -110], outboard: [0, -60, -120] },
  hinge: { front: [380, -150, 0], rear: [300, -500, 0] },
  strut: { top: [-10, -190, 450], bottom: [-10, -145, 80] },
};

const END_TAILS: Readonly<Record<string, string>> = { inboard: "in", outboard: "out", at: "pivot" };

export interface NewMember {
  readonly member: MemberDocument;
  /** Hard points of its own. */
  readonly points: Readonly<Record<string, Vec3>>;
}

/** A member of that kind on new hard points at usual places beside the wheel; `taken` are ids that are not free any more. */
export function usualMember(document: SceneDocument, kind: MemberKind, taken: readonly string[] = []): NewMember {
  const centre = pointResolver(document).drawn(document.wheel.centre, "wheel.centre");
  let id = freeId(document, kind);
  for (let i = 2; taken.includes(id); i++) id = freeId(document, `${kind}-${i}`);
  const points: Record<string, Vec3> = {};
  const ends: Record<string, string> = {};
  for (const [end, offset_mm] of Object.entries(MEMBER_ENDS[kind])) {
    const name = freePoint(document, `${id}.${END_TAILS[end] ?? end}`);
    points[name] = offset_mm.map((mm, i) => mm + centre[i]!) as unknown as Vec3;
    ends[end] = name;
  }
  return { member: { id, kind, ...ends } as unknown as MemberDocument, points };
}

/**
 * All members at once, as one step, since the hub must be held by five constraints before and after. Points come along
 * where a member names them that are not there yet; load, joint, service and allowance records of a member go with it or its kind. Throws InputError as the finished document is refused.
 */
export function withMembers(
  document: SceneDocument,
  members: readonly MemberDocument[],
  points: Readonly<Record<string, Vec3>> = {},
): SceneDocument {
  const named = new Set(
    members.flatMap((member) => Object.values(member).filter((value) => typeof value === "string")),
  );
  const wanted = Object.entries(points).filter(([name]) => named.has(name) && !Object.hasOwn(document.points, name));
  const grown = { ...document, points: { ...document.points, ...Object.fromEntries(wanted) } };
  // sizes told of a member mean nothing for another kind of it
  const gone = document.members.filter(({ id, kind }) => members.every((next) => next.id !== id || next.kind !== kind));
  const ids = gone.map(({ id }) => id);
  return readable({
    ...withoutAllowancesOf(
      withoutServiceOf(withoutTubeEndsOf(withoutJointsOf(withoutLoadsOf(grown, ids), ids), ids), ids),
      ids,
    ),
    members,
  });
}

export interface NewPoint {
  readonly at: Vec3;
  readonly tolerance_mm?: number | undefined;
  readonly how?: string | undefined;
}

/** A hard point that nothing hangs on yet. Throws InputError `duplicate-id`, and `wrong-value` for a name that is none. */
export function addPoint(document: SceneDocument, name: string, { at, tolerance_mm, how }: NewPoint): SceneDocument {
  if (Object.hasOwn(document.points, name)) {
    const path = childPath("points", name);
    throw new InputError("duplicate-id", { path }, `there is a point ${shortQuote(name)} already`, "a name of its own");
  }
  const noted = { ...(tolerance_mm === undefined ? {} : { tolerance_mm }), ...(how ? { how } : {}) };
  const entry = Object.keys(noted).length === 0 ? at : { at, ...noted };
  return readable({ ...document, points: { ...document.points, [name]: entry } });
}

/** The document with other top-level records, read through. Throws InputError as reading and resolving do. */
export function withRecords(
  document: SceneDocument,
  records: Partial<
    Pick<
      SceneDocument,
      "title" | "notes" | "sides" | "travel" | "clearances" | "tessellation_mm" | "datums" | "powertrain" | "allowances"
    >
  >,
): SceneDocument {
  const merged: Record<string, unknown> = { ...document, ...records };
  for (const [key, value] of Object.entries(merged)) if (value === undefined) delete merged[key];
  return readable(merged as unknown as SceneDocument);
}
