import type { SceneDocument } from "./document.ts";
import { mentionsOf } from "./measures.ts";
import { nearestOf } from "./nearest.ts";
import { childPath, shortQuote } from "./path.ts";
import type { Resolving } from "./resolving.ts";
import { SETUP_ROLE } from "./setup/setupDocument.ts";

/** Bodies that the wheel, damper, driveshaft and bar bring along. */
const BUILT_IN_BODIES = ["tyre", "rim", "damper-upper", "damper-lower", "spring", "driveshaft", "bar", "bar-link"];
/** What a body can ride on besides these; no bodies of their own. */
const FRAMES = ["chassis", "powertrain", "carrier"];
const ROLE = "role:";

/**
 * Every id stands once and every mention of one names something. A rule that silently held for nothing would call a
 * gap clear that is not. Throws InputError `duplicate-id`, `missing-id` or `missing-point`.
 */
export function checkNames(document: SceneDocument, { refuse }: Resolving): void {
  const taken = new Map<string, string>([...BUILT_IN_BODIES, ...FRAMES].map((id) => [id, "the program's own"]));
  document.members.forEach(({ id }, i) => {
    take(id, `members[${i}]`);
  });
  document.bodies.forEach(({ id }, i) => {
    take(id, `bodies[${i}]`);
  });
  refuseLookalikes();

  const memberIds = document.members.map(({ id }) => id);
  const mounts = [
    ...FRAMES,
    ...memberIds,
    ...(document.damper ? ["damper-upper", "damper-lower"] : []),
    ...(document.driveshaft ? ["driveshaft"] : []),
  ];
  document.bodies.forEach(({ on }, i) => {
    mustName(on, mounts, `bodies[${i}].on`);
  });
  document.allowances?.give?.forEach(({ on }, i) => {
    // everything is told from the chassis
    const giving = mounts.filter((mount) => mount !== "chassis");
    mustName(on, giving, `allowances.give[${i}].on`);
  });
  for (const part of ["damper", "antiRollBar"] as const) {
    const unit = document[part];
    if (unit) mustName(unit.on, ["carrier", ...memberIds], `${part}.on`);
  }
  const bodies = [...BUILT_IN_BODIES, ...memberIds, ...document.bodies.map(({ id }) => id)];
  for (const part of ["rules", "accept"] as const) {
    document.clearances[part]?.forEach(({ a, b }, i) => {
      mustMean(a, `clearances.${part}[${i}].a`);
      mustMean(b, `clearances.${part}[${i}].b`);
    });
  }
  document.clearances.accept?.forEach(({ a, b }, i) => {
    if (a !== "*" || b !== "*") return;
    throw refuse(
      "wrong-value",
      `clearances.accept[${i}]`,
      "this would leave out every pair",
      "one pair, or one part against *",
    );
  });
  for (const side of ["left", "right"] as const) {
    for (const point of Object.keys(document.measured?.[side] ?? {}))
      mustBePoint(point, childPath(`measured.${side}`, point));
  }
  for (const { what, id, path } of mentionsOf(document)) {
    if (what === "point") mustBePoint(id, path);
    else mustName(id, bodies, path);
  }
  checkOnce(document.measures?.map(({ id }) => id) ?? [], (i) => `measures[${i}].id`, "measure");
  checkOnce(document.datums?.map(({ id }) => id) ?? [], (i) => `datums[${i}].id`, "datum");
  const poses = document.powertrain?.poses?.map(({ id }) => id) ?? [];
  checkOnce(poses, (i) => `powertrain.poses[${i}].id`, "powertrain pose");
  if (poses.includes("rest")) {
    const path = `powertrain.poses[${poses.indexOf("rest")}].id`;
    throw refuse("duplicate-id", path, '"rest" is the pose that is always there', "another name");
  }

  function take(id: string, path: string): void {
    const where = `${path}.id`;
    if (id === "*" || id.startsWith(ROLE)) {
      throw refuse("duplicate-id", where, `${shortQuote(id)} means something else in clearance rules`, "another name");
    }
    const owner = taken.get(id);
    if (owner !== undefined) {
      throw refuse("duplicate-id", where, `the id ${shortQuote(id)} is taken already (${owner})`, "an id of its own");
    }
    taken.set(id, path);
  }

  /** Pieces and sides of a part are told apart by marks behind its id: `spring#upper`, `arm@left`. */
  function refuseLookalikes(): void {
    for (const [id, path] of taken) {
      const whole = id.replace(/[#@].*$/, "");
      if (whole !== id && taken.has(whole)) {
        throw refuse(
          "duplicate-id",
          `${path}.id`,
          `${shortQuote(id)} reads like a piece of ${whole}`,
          "an id without # or @",
        );
      }
    }
  }

  function mustName(id: string, known: readonly string[], path: string): void {
    if (known.includes(id)) return;
    const nearest = nearestOf(id, known);
    const wanted = nearest ? `${nearest}?` : `one of ${known.join(", ")}`;
    throw refuse("missing-id", path, `${shortQuote(id)} names nothing here`, wanted);
  }

  function mustBePoint(point: string, path: string): void {
    const names = Object.keys(document.points);
    if (names.includes(point)) return;
    const nearest = nearestOf(point, names);
    const wanted = nearest ? `${nearest}?` : "a name that stands in points";
    throw refuse("missing-point", path, `there is no point named ${shortQuote(point)}`, wanted);
  }

  function mustMean(term: string, path: string): void {
    if (term === "*") return;
    if (!term.startsWith(ROLE)) {
      mustName(term, bodies, path);
      return;
    }
    const role = term.slice(ROLE.length);
    const nearest = meantRole(document, role);
    if (role === "" || nearest !== null) {
      throw refuse(
        "missing-id",
        path,
        `no body has the role ${shortQuote(role)}`,
        nearest ? `${ROLE}${nearest}?` : `${ROLE}NAME`,
      );
    }
  }

  function checkOnce(ids: readonly string[], path: (i: number) => string, what: string): void {
    ids.forEach((id, i) => {
      if (ids.indexOf(id) < i) {
        throw refuse("duplicate-id", path(i), `another ${what} has the id ${shortQuote(id)}`, "an id of its own");
      }
    });
  }
}

/**
 * The role that a rule's `role` most likely is a slip of; null: it is none. A role that nobody has yet may wait for its part,
 * and what the set-up asked for was not typed by anybody.
 */
export function meantRole(document: SceneDocument, role: string): string | null {
  const roles = new Set(document.bodies.flatMap((body) => body.role ?? []));
  if (roles.has(role) || (document.setup && role === SETUP_ROLE)) return null;
  return nearestOf(role, roles);
}
