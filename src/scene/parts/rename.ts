import { withAllowancesRenamed } from "../allowancesOfParts.ts";
import type { SceneDocument } from "../document.ts";
import { InputError } from "../error.ts";
import { withJointsRenamed } from "../jointsOfParts.ts";
import { withLoadsRenamed } from "../loadsOfParts.ts";
import { withMeasuresRenamed } from "../measures.ts";
import { shortQuote } from "../path.ts";
import { withServiceRenamed } from "../serviceOfParts.ts";
import { withTubeEndsRenamed } from "../tubeEnds.ts";
import { bodyOf, KIND_WORDS, partOf, readable, withBody } from "./parts.ts";

/**
 * The part under another id, wherever it is mentioned: what rides on it, damper and bar, clearance rules, accepted pairs, joints, loads, service jobs, tube ends, allowances.
 * Points keep their names. Throws InputError `missing-id`, `duplicate-id`, and `wrong-value` for the units that go by the
 * program's own names.
 */
export function renamePart(document: SceneDocument, from: string, to: string): SceneDocument {
  const part = partOf(document, from);
  if (part.kind !== "body" && part.kind !== "member") {
    const wrong = `${KIND_WORDS[part.kind]} goes by a name of its own`;
    throw new InputError("wrong-value", { path: part.path }, wrong, "another part to rename");
  }
  if (to === from) return document;
  const renamed = (id: string) => (id === from ? to : id);
  const pair = <Entry extends { readonly a: string; readonly b: string }>(entry: Entry): Entry =>
    entry.a === from || entry.b === from ? { ...entry, a: renamed(entry.a), b: renamed(entry.b) } : entry;
  const { damper, antiRollBar, clearances } = document;
  const { rules, accept } = clearances;
  const ended = withTubeEndsRenamed(document, from, to);
  const served = withServiceRenamed(withAllowancesRenamed(ended, from, to), from, to);
  return readable({
    ...withJointsRenamed(withLoadsRenamed(withMeasuresRenamed(served, from, to), from, to), from, to),
    members: document.members.map((member) => (member.id === from ? { ...member, id: to } : member)),
    bodies: document.bodies.map((body) =>
      body.id === from || body.on === from ? { ...body, id: renamed(body.id), on: renamed(body.on) } : body,
    ),
    ...(damper ? { damper: { ...damper, on: renamed(damper.on) } } : {}),
    ...(antiRollBar ? { antiRollBar: { ...antiRollBar, on: renamed(antiRollBar.on) } } : {}),
    clearances: {
      ...clearances,
      ...(rules ? { rules: rules.map(pair) } : {}),
      ...(accept ? { accept: accept.map(pair) } : {}),
    },
  });
}

/** What clearance rules may call the part by, as in role:exhaust; null: nothing. */
export function withRole(document: SceneDocument, id: string, role: string | null): SceneDocument {
  const { role: _, ...body } = bodyOf(document, id);
  if (role === "") {
    throw new InputError("wrong-value", { path: partOf(document, id).path }, `the role ${shortQuote(role)}`, "a word");
  }
  return readable(withBody(document, id, role === null ? body : { ...body, role }));
}
