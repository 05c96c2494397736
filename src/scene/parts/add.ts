import type { Vec3 } from "../../maths/vec3.ts";
import type { BodyDocument, MadeDocument, SceneDocument } from "../document.ts";
import { InputError } from "../error.ts";
import { childPath, shortQuote } from "../path.ts";
import { recipeOf } from "../recipes/made.ts";
import { shapeOfMade } from "./follow.ts";
import { bodyOf, partOf, readable, withBody, withMember } from "./parts.ts";

export interface NewPart {
  readonly id: string;
  readonly on: string;
  readonly made: MadeDocument;
  /** The recipe's own where it is left out. */
  readonly role?: string | undefined;
  /** A second one on the right, for what rides on chassis or powertrain. */
  readonly mirror?: boolean | undefined;
  /** Points that come with it, car coordinates, mm. */
  readonly points?: Readonly<Record<string, Vec3>> | undefined;
}

/** Throws InputError `duplicate-id` for an id or point that is taken, and what the finished document is refused with. */
export function addPart(document: SceneDocument, part: NewPart): SceneDocument {
  const grown = withPoints(document, part.points ?? {});
  const body: BodyDocument = {
    id: part.id,
    on: part.on,
    shape: shapeOfMade(grown, part.made),
    role: part.role ?? recipeOf(part.made).role,
    ...(part.mirror ? { mirror: true } : {}),
    made: part.made,
  };
  return readable({ ...grown, bodies: [...grown.bodies, body] });
}

/** The member takes the recipe's shape for its own. Throws InputError as addPart. */
export function dressMember(
  document: SceneDocument,
  id: string,
  made: MadeDocument,
  points: Readonly<Record<string, Vec3>> = {},
): SceneDocument {
  const grown = withPoints(document, points);
  const member = grown.members.find((candidate) => candidate.id === id);
  if (!member) {
    const { path } = partOf(document, id);
    throw new InputError("wrong-value", { path }, `${shortQuote(id)} is no member`, "the id of a member");
  }
  return readable(withMember(grown, id, { ...member, body: shapeOfMade(grown, made), made }));
}

/** The part with other sizes, or hung on other points; its shape is made anew. Throws InputError as the recipe. */
export function withSizes(document: SceneDocument, id: string, made: MadeDocument): SceneDocument {
  if (document.members.some((member) => member.id === id)) return dressMember(document, id, made);
  const body = bodyOf(document, id);
  return readable(withBody(document, id, { ...body, shape: shapeOfMade(document, made), made }));
}

/** The damper, anti-roll bar, driveshaft or wheel with other values; undefined takes the first three away. */
export function withUnit<Unit extends "damper" | "antiRollBar" | "driveshaft" | "wheel">(
  document: SceneDocument,
  unit: Unit,
  record: SceneDocument[Unit],
): SceneDocument {
  return readable({ ...document, [unit]: record });
}

/** Several parts at once, as one step: either all of them or none. */
export function addParts(document: SceneDocument, parts: readonly NewPart[]): SceneDocument {
  return parts.reduce(addPart, document);
}

function withPoints(document: SceneDocument, points: Readonly<Record<string, Vec3>>): SceneDocument {
  for (const name of Object.keys(points)) {
    if (!Object.hasOwn(document.points, name)) continue;
    const path = childPath("points", name);
    throw new InputError("duplicate-id", { path }, `there is a point ${shortQuote(name)} already`, "a name of its own");
  }
  return Object.keys(points).length === 0 ? document : { ...document, points: { ...document.points, ...points } };
}
