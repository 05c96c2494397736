import type { MadeDocument, PointDocument, SceneDocument, ShapeDocument } from "./document.ts";
import { isEntryRecord, isVector } from "./pointResolver.ts";
import { pointsOfMade } from "./recipes/makeShape.ts";

export type PointUser =
  | "wheel"
  | "member"
  | "damper"
  | "antiRollBar"
  | "driveshaft"
  | "powertrain"
  | "datum"
  | "body"
  | "service";

/** One place in the document that holds a POINT, entries of `points` apart. */
export interface PointUse {
  readonly user: PointUser;
  /** Id of the member, body, datum or powertrain pose; the user's own name where there is only one. */
  readonly id: string;
  /** JSON path of the POINT. */
  readonly path: string;
  readonly point: PointDocument;
  /** Whether a moving part is held to the chassis here: the ends that a builder moves. Brackets are not. */
  readonly isMount: boolean;
}

/** The member ends that sit on the chassis, by kind. */
const MOUNTS = {
  ball: ["at"],
  link: ["inboard"],
  wishbone: ["front", "rear"],
  hinge: ["front", "rear"],
  strut: ["top"],
} as const;

/** Every POINT of the document outside `points`, in the order of the file. */
export function pointUses(document: SceneDocument): PointUse[] {
  const uses: PointUse[] = [];
  const add = (user: PointUser, id: string, path: string, point: PointDocument | undefined, isMount = false) => {
    if (point !== undefined) uses.push({ user, id, path, point, isMount });
  };
  document.datums?.forEach(({ id, at }, i) => {
    add("datum", id, `datums[${i}].at`, at);
  });
  add("wheel", "wheel", "wheel.centre", document.wheel.centre);
  document.members.forEach((member, i) => {
    const mounts: readonly string[] = MOUNTS[member.kind];
    const ends: Readonly<Record<string, unknown>> = member;
    for (const field of ["at", "front", "rear", "top", "bottom", "inboard", "outboard"]) {
      add(
        "member",
        member.id,
        `members[${i}].${field}`,
        ends[field] as PointDocument | undefined,
        mounts.includes(field),
      );
    }
    if (member.body) addShape("member", member.id, `members[${i}].body`, member.body);
    addMade("member", member.id, `members[${i}].made`, member.made);
  });
  const { damper, antiRollBar, driveshaft, powertrain } = document;
  add("damper", "damper", "damper.top", damper?.top, true);
  add("damper", "damper", "damper.bottom", damper?.bottom);
  add("antiRollBar", "antiRollBar", "antiRollBar.pivot", antiRollBar?.pivot, true);
  add("antiRollBar", "antiRollBar", "antiRollBar.arm", antiRollBar?.arm);
  add("antiRollBar", "antiRollBar", "antiRollBar.pickup", antiRollBar?.pickup);
  add("driveshaft", "driveshaft", "driveshaft.inner", driveshaft?.inner);
  add("driveshaft", "driveshaft", "driveshaft.outer", driveshaft?.outer);
  add("driveshaft", "driveshaft", "driveshaft.right.inner", driveshaft?.right?.inner);
  add("powertrain", "powertrain", "powertrain.place.about", powertrain?.place?.about);
  powertrain?.poses?.forEach(({ id, about }, i) => {
    add("powertrain", id, `powertrain.poses[${i}].about`, about);
  });
  document.loads?.tubes?.forEach(({ member, cut }, i) => {
    add("member", member, `loads.tubes[${i}].cut`, cut);
  });
  document.service?.fasteners?.forEach(({ id, at }, i) => {
    add("service", id, `service.fasteners[${i}].at`, at);
  });
  document.service?.jobs?.forEach((job, i) => {
    if (job.kind !== "out") return;
    job.steps.forEach((step, k) => {
      const path = `service.jobs[${i}].steps[${k}]`;
      if (step.kind !== "straight") add("service", job.id, `${path}.about`, step.about);
      if (step.kind === "swing") add("service", job.id, `${path}.frees.at`, step.frees?.at);
    });
  });
  document.bodies.forEach(({ id, shape, made }, i) => {
    addShape("body", id, `bodies[${i}].shape`, shape);
    addMade("body", id, `bodies[${i}].made`, made);
  });
  return uses;

  function addMade(user: PointUser, id: string, path: string, made: MadeDocument | undefined): void {
    if (made) for (const { key, point } of pointsOfMade(made)) add(user, id, `${path}.${key}`, point);
  }

  function addShape(user: PointUser, id: string, path: string, shape: ShapeDocument): void {
    add(user, id, `${path}.at`, shape.at);
    switch (shape.kind) {
      case "cylinder":
      case "capsule":
      case "cone":
        add(user, id, `${path}.from`, shape.from);
        add(user, id, `${path}.to`, shape.to);
        break;
      case "tube":
        for (const [i, point] of shape.path.entries()) add(user, id, `${path}.path[${i}]`, point);
        break;
      case "prism":
        add(user, id, `${path}.origin`, shape.origin);
        break;
      case "hull":
        for (const [i, point] of (shape.points ?? []).entries()) add(user, id, `${path}.points[${i}]`, point);
        for (const [i, { at }] of (shape.spheres ?? []).entries()) add(user, id, `${path}.spheres[${i}].at`, at);
        break;
      case "group":
        for (const [i, part] of shape.parts.entries()) addShape(user, id, `${path}.parts[${i}]`, part);
        break;
    }
  }
}

/** The uses of every named point, also those through other points that hang on it. */
export function usesByName(document: SceneDocument): Map<string, PointUse[]> {
  const byName = new Map<string, PointUse[]>();
  for (const use of pointUses(document)) {
    for (const name of namesBehind(document, use.point)) {
      const uses = byName.get(name);
      if (uses) uses.push(use);
      else byName.set(name, [use]);
    }
  }
  return byName;
}

/** The named points that a POINT hangs on, nearest first; a circle is gone round once. */
export function namesBehind(document: SceneDocument, point: PointDocument): string[] {
  const names = new Set<string>();
  let next: PointDocument | undefined = point;
  while (next !== undefined && !isVector(next)) {
    const name: string = typeof next === "string" ? next : next.from;
    if (names.has(name)) break;
    names.add(name);
    const entry: SceneDocument["points"][string] | undefined = Object.hasOwn(document.points, name)
      ? document.points[name]
      : undefined;
    next = entry !== undefined && isEntryRecord(entry) ? entry.at : entry;
  }
  return [...names];
}
