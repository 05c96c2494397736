import { withoutAllowancesOf } from "../allowancesOfParts.ts";
import { meantRole } from "../checkNames.ts";
import type { PointDocument, SceneDocument } from "../document.ts";
import { InputError } from "../error.ts";
import { withoutJointsOf } from "../jointsOfParts.ts";
import { withoutLoadsOf } from "../loadsOfParts.ts";
import { withoutMeasuresAt } from "../measures.ts";
import { childPath, shortQuote } from "../path.ts";
import { isEntryRecord, isVector } from "../pointResolver.ts";
import { usesByName } from "../pointUses.ts";
import { withoutServiceOf } from "../serviceOfParts.ts";
import { withoutTubeEndsOf } from "../tubeEnds.ts";
import { type Part, partOf, readable } from "./parts.ts";

/** What deleting a part would take with it, for asking first. */
export interface Consequences {
  /** Ids of parts that ride on it. */
  readonly riders: readonly string[];
  readonly rules: number;
  readonly accepted: number;
  /** Points that nothing else uses. */
  readonly points: readonly string[];
}

const BODIES_OF: Readonly<Record<string, readonly string[]>> = {
  wheel: ["tyre", "rim"],
  damper: ["damper-upper", "damper-lower", "spring"],
  bar: ["bar", "bar-link"],
};

/** Ids under which the part is told in rules and verdicts, and ridden on. */
export function bodiesOf(id: string): readonly string[] {
  return BODIES_OF[id] ?? [id];
}

export function consequencesOf(document: SceneDocument, id: string): Consequences {
  const part = partOf(document, id);
  const ids = bodiesOf(part.id);
  const names = (term: { readonly a: string; readonly b: string }) => ids.includes(term.a) || ids.includes(term.b);
  const riders = ridersOf(document, part);
  return {
    riders,
    rules: document.clearances.rules?.filter(names).length ?? 0,
    accepted: document.clearances.accept?.filter(names).length ?? 0,
    points: ownPoints(document, [part.id, ...riders]),
  };
}

/** Points that only these parts use, and that no other point hangs on unless it is such a one itself; in the order of the file. */
export function ownPoints(document: SceneDocument, ids: readonly string[]): string[] {
  const users = new Set(ids.map((id) => (id === "bar" ? "antiRollBar" : id)));
  const uses = usesByName(document);
  const own = new Set(
    Object.keys(document.points).filter((name) => {
      const found = uses.get(name) ?? [];
      return (
        found.length > 0 && found.every((use) => use.user !== "datum" && use.user !== "powertrain" && users.has(use.id))
      );
    }),
  );
  for (let before = -1; before !== own.size; ) {
    before = own.size;
    for (const [name, entry] of Object.entries(document.points)) {
      const held = heldBy(isEntryRecord(entry) ? entry.at : entry);
      if (held !== null && !own.has(name)) own.delete(held);
    }
  }
  return [...own];
}

function heldBy(point: PointDocument): string | null {
  if (isVector(point)) return null;
  return typeof point === "string" ? point : point.from;
}

export interface RemoveOptions {
  /** Points that go with it; each must be one that nothing else uses. */
  readonly points?: readonly string[];
  /** Whether what rides on it goes too; else such a part is refused. */
  readonly riders?: boolean;
}

/**
 * The document without the part, the rules and accepted pairs that name it, and the points that are asked to go. Throws
 * InputError `missing-id`, `wrong-value` for what a corner cannot do without or what others need, and what the finished
 * document is refused with (a member less, and the hub is loose).
 */
export function removePart(document: SceneDocument, id: string, options: RemoveOptions = {}): SceneDocument {
  const part = partOf(document, id);
  if (part.kind === "wheel") {
    throw new InputError("wrong-value", { path: "wheel" }, "a corner needs its wheel", "other sizes of it instead");
  }
  const riders = ridersOf(document, part);
  if (riders.length > 0 && !options.riders) {
    const wrong = `${riders.map(shortQuote).join(", ")} ${riders.length === 1 ? "rides" : "ride"} on ${shortQuote(part.id)}`;
    throw new InputError("wrong-value", { path: part.path }, wrong, "they go too, or ride on something else first");
  }
  const bare = withoutRecord(document, part, riders);
  const gone = [part.id, ...riders].flatMap(bodiesOf);
  const points = options.points ?? [];
  const unmeasured = withoutMeasuresAt(bare, { parts: gone, points });
  const parts = [part.id, ...riders];
  const unserviced = withoutAllowancesOf(withoutServiceOf(unmeasured, [...parts, ...gone]), [...parts, ...gone]);
  const unloaded = withoutTubeEndsOf(withoutJointsOf(withoutLoadsOf(unserviced, parts), parts), parts);
  return readable(withoutPoints(withoutMentions(unloaded, gone), points));
}

function ridersOf(document: SceneDocument, part: Part): string[] {
  const ids = bodiesOf(part.id);
  const riding = document.bodies.filter(({ on }) => ids.includes(on)).map(({ id }) => id);
  if (part.kind === "member") {
    if (document.damper?.on === part.id) riding.push("damper");
    if (document.antiRollBar?.on === part.id) riding.push("bar");
  }
  return riding;
}

function withoutRecord(document: SceneDocument, part: Part, riders: readonly string[]): SceneDocument {
  const gone = new Set([part.id, ...riders]);
  const { damper, antiRollBar, driveshaft, ...rest } = document;
  return {
    ...rest,
    ...(damper && !gone.has("damper") ? { damper } : {}),
    ...(antiRollBar && !gone.has("bar") ? { antiRollBar } : {}),
    ...(driveshaft && !gone.has("driveshaft") ? { driveshaft } : {}),
    members: document.members.filter((member) => !gone.has(member.id)),
    bodies: document.bodies.filter((body) => !gone.has(body.id)),
  };
}

/** A rule for a role that nobody has may wait, unless it now reads like a slip of one that somebody has. */
function withoutMentions(document: SceneDocument, gone: readonly string[]): SceneDocument {
  const isGone = (term: string): boolean =>
    term.startsWith("role:") ? meantRole(document, term.slice("role:".length)) !== null : gone.includes(term);
  const kept = <Entry extends { readonly a: string; readonly b: string }>(entries: readonly Entry[]) =>
    entries.filter(({ a, b }) => !isGone(a) && !isGone(b));
  const { rules, accept } = document.clearances;
  const clearances = {
    ...document.clearances,
    ...(rules ? { rules: kept(rules) } : {}),
    ...(accept ? { accept: kept(accept) } : {}),
  };
  return { ...document, clearances };
}

function withoutPoints(document: SceneDocument, names: readonly string[]): SceneDocument {
  if (names.length === 0) return document;
  const uses = usesByName(document);
  for (const name of names) {
    const path = childPath("points", name);
    if (!Object.hasOwn(document.points, name)) {
      throw new InputError(
        "missing-point",
        { path },
        `there is no point named ${shortQuote(name)}`,
        "a name that stands in points",
      );
    }
    const [use] = uses.get(name) ?? [];
    if (!use) continue;
    const wrong = `${shortQuote(name)} is used by ${shortQuote(use.id)}`;
    throw new InputError("wrong-value", { path }, wrong, "a point that nothing else uses");
  }
  const keep = <Value>(record: Readonly<Record<string, Value>>) =>
    Object.fromEntries(Object.entries(record).filter(([name]) => !names.includes(name)));
  const { boltedUp, measured, ...rest } = document;
  const bolted = boltedUp && keep(boltedUp);
  const sides = Object.entries(measured ?? {}).map(([side, places]) => [side, places && keep(places)] as const);
  return {
    ...rest,
    points: keep(document.points),
    ...(bolted && Object.keys(bolted).length > 0 ? { boltedUp: bolted } : {}),
    ...(measured ? { measured: Object.fromEntries(sides) } : {}),
  };
}
