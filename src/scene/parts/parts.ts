import type { BodyDocument, MadeDocument, MemberDocument, SceneDocument, ShapeDocument } from "../document.ts";
import { InputError } from "../error.ts";
import { nearestOf } from "../nearest.ts";
import { shortQuote } from "../path.ts";
import { validateDocument } from "../read.ts";
import { resolveScene } from "../resolve.ts";

/** What a builder calls a part: a body, a member, or one of the units that a corner has once. */
export type PartKind = "body" | "member" | "damper" | "antiRollBar" | "driveshaft" | "wheel";

export interface Part {
  readonly id: string;
  readonly kind: PartKind;
  /** What it rides on; for a member "carrier", which it holds. */
  readonly on: string;
  readonly made: MadeDocument | null;
  readonly role: string | null;
  /** JSON path of its record. */
  readonly path: string;
}

export function partsOf(document: SceneDocument): Part[] {
  const unit = (kind: "damper" | "antiRollBar", id: string): Part[] => {
    const record = document[kind];
    return record ? [{ id, kind, on: record.on, made: null, role: null, path: kind }] : [];
  };
  const shaft: Part = {
    id: "driveshaft",
    kind: "driveshaft",
    on: "carrier",
    made: null,
    role: null,
    path: "driveshaft",
  };
  return [
    { id: "wheel", kind: "wheel", on: "carrier", made: null, role: null, path: "wheel" },
    ...document.members.map(
      ({ id, made = null }, i): Part => ({
        id,
        kind: "member",
        on: "carrier",
        made,
        role: null,
        path: `members[${i}]`,
      }),
    ),
    ...unit("damper", "damper"),
    ...unit("antiRollBar", "bar"),
    ...(document.driveshaft ? [shaft] : []),
    ...document.bodies.map(
      ({ id, on, made = null, role = null }, i): Part => ({ id, kind: "body", on, made, role, path: `bodies[${i}]` }),
    ),
  ];
}

/** Bodies that the units bring, and the part that each belongs to. */
const UNIT_OF: Readonly<Record<string, string>> = {
  tyre: "wheel",
  rim: "wheel",
  "damper-upper": "damper",
  "damper-lower": "damper",
  spring: "damper",
  "bar-link": "bar",
};

/** The part by its id or by the id of a body that it brings. Throws InputError `missing-id`. */
export function partOf(document: SceneDocument, id: string): Part {
  const parts = partsOf(document);
  const wanted = UNIT_OF[id] ?? id;
  const found = parts.find((part) => part.id === wanted);
  if (found) return found;
  const nearest = nearestOf(
    id,
    parts.map((part) => part.id),
  );
  const mend = nearest ? `${nearest}?` : "the id of a part";
  throw new InputError("missing-id", { path: "bodies" }, `there is no part ${shortQuote(id)}`, mend);
}

export function bodyIndex(document: SceneDocument, id: string): number {
  return document.bodies.findIndex((body) => body.id === id);
}

export function bodyOf(document: SceneDocument, id: string): BodyDocument {
  const found = document.bodies.find((body) => body.id === id);
  if (found) return found;
  const part = partOf(document, id);
  throw new InputError(
    "wrong-value",
    { path: part.path },
    `${shortQuote(part.id)} is ${KIND_WORDS[part.kind]}`,
    "a part of the chassis, the powertrain or the corner that is drawn by a shape of its own",
  );
}

export const KIND_WORDS: Readonly<Record<PartKind, string>> = {
  body: "a part",
  member: "a member that holds the hub",
  damper: "the damper",
  antiRollBar: "the anti-roll bar",
  driveshaft: "the driveshaft",
  wheel: "the wheel",
};

export function withBody(document: SceneDocument, id: string, body: BodyDocument): SceneDocument {
  return { ...document, bodies: document.bodies.map((other) => (other.id === id ? body : other)) };
}

export function withMember(document: SceneDocument, id: string, member: MemberDocument): SceneDocument {
  return { ...document, members: document.members.map((other) => (other.id === id ? member : other)) };
}

/** The shape that the part draws for itself; null: bare, or the plain one of its kind. */
export function ownShape(document: SceneDocument, id: string): ShapeDocument | null {
  const body = document.bodies.find((candidate) => candidate.id === id);
  return body ? body.shape : (document.members.find((member) => member.id === id)?.body ?? null);
}

/**
 * The document, once it is sure that its file can be read and resolved. Throws InputError as those do: an edit that would
 * leave a scene that cannot be opened again is refused with the reason.
 */
export function readable(document: SceneDocument): SceneDocument {
  validateDocument(document, "");
  resolveScene(document);
  return document;
}

/** `wanted`, or `wanted-2` and so on where that is taken. */
export function freeId(document: SceneDocument, wanted: string): string {
  return free(wanted, (id) => takenIds(document).has(id), "-");
}

export function freePoint(document: SceneDocument, wanted: string): string {
  return free(wanted, (name) => Object.hasOwn(document.points, name), "-");
}

function free(wanted: string, isTaken: (name: string) => boolean, mark: string): string {
  if (!isTaken(wanted)) return wanted;
  const stem = wanted.replace(/-\d+$/, "");
  for (let i = 2; ; i++) if (!isTaken(`${stem}${mark}${i}`)) return `${stem}${mark}${i}`;
}

function takenIds(document: SceneDocument): ReadonlySet<string> {
  return new Set([
    ...Object.keys(UNIT_OF),
    ...["wheel", "damper", "bar", "driveshaft", "chassis", "powertrain", "carrier"],
    ...document.members.map(({ id }) => id),
    ...document.bodies.map(({ id }) => id),
  ]);
}
