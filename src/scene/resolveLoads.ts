import type { Vec3 } from "../maths/vec3.ts";
import type { SceneDocument } from "./document.ts";
import { jointNames } from "./jointNames.ts";
import { type LoadCase, type Loads, NO_LOADS } from "./loadRecords.ts";
import { nearestOf } from "./nearest.ts";
import { shortQuote } from "./path.ts";
import { pointResolver } from "./pointResolver.ts";
import { type Resolving, resolving, unitVector } from "./resolving.ts";

const STRETCHES: Readonly<Record<string, readonly string[]>> = {
  link: ["inboard", "outboard"],
  wishbone: ["front", "rear"],
};

/** The document's own loads, without the rest of it resolved. Throws InputError as resolveLoads does; `file` is for its message. */
export function loadsOfDocument(document: SceneDocument, file = ""): Loads {
  return resolveLoads(document, resolving(pointResolver(document, file), file));
}

/** Throws InputError `missing-id`, `duplicate-id`, `zero-length`, or `wrong-value` for a case without a force and what does not go together. */
export function resolveLoads(document: SceneDocument, context: Resolving): Loads {
  const { loads } = document;
  if (!loads) return NO_LOADS;
  const { refuse, drawn } = context;
  const joints = jointNames(document);
  const members = new Map(document.members.map(({ id, kind }) => [id, kind]));

  checkOnce(loads.cases?.map(({ id }) => id) ?? [], "cases", "load case");
  checkOnce(loads.materials?.map(({ id }) => id) ?? [], "materials", "material");
  for (const list of ["bolts", "plates", "welds", "ratings"] as const) {
    loads[list]?.forEach(({ joint }, i) => {
      mustName(joint, joints, `loads.${list}[${i}].joint`);
    });
  }
  loads.bolts?.forEach(({ joint }, i) => {
    if (loads.bolts!.findIndex((other) => other.joint === joint) === i) return;
    throw refuse(
      "duplicate-id",
      `loads.bolts[${i}].joint`,
      `${shortQuote(joint)} has a bolt already`,
      "one bolt a joint",
    );
  });
  loads.plates?.forEach(({ hole_mm, end_mm, side_mm }, i) => {
    const key = end_mm <= hole_mm / 2 ? "end_mm" : side_mm <= hole_mm / 2 ? "side_mm" : null;
    if (!key) return;
    const wanted = `more than half the hole, which is ${hole_mm / 2}`;
    throw refuse("wrong-value", `loads.plates[${i}].${key}`, `is ${key === "end_mm" ? end_mm : side_mm}`, wanted);
  });
  loads.welds?.forEach(({ throat_mm, leg_mm }, i) => {
    if ((throat_mm === undefined) !== (leg_mm === undefined)) return;
    const wrong = throat_mm === undefined ? "has neither throat nor leg" : "has both throat and leg";
    throw refuse("wrong-value", `loads.welds[${i}]`, wrong, "throat_mm or leg_mm");
  });

  if (loads.brakes === "inboard" && !document.driveshaft) {
    const wrong = "brakes at the differential hold the wheel through a driveshaft, and the scene has none";
    throw refuse("wrong-value", "loads.brakes", wrong, "outboard, or a driveshaft");
  }

  const cornerMass_kg = loads.cornerMass_kg ?? null;
  const rightMass_kg = loads.right?.cornerMass_kg ?? cornerMass_kg;
  const unsprung_kg = loads.unsprung_kg ?? null;
  for (const mass_kg of [cornerMass_kg, rightMass_kg]) {
    if (unsprung_kg === null || mass_kg === null || unsprung_kg < mass_kg) continue;
    const wanted = `less than the whole mass on the wheel, which is ${mass_kg}`;
    throw refuse("wrong-value", "loads.unsprung_kg", `is ${unsprung_kg}`, wanted);
  }
  return {
    cornerMass_kg: { left: cornerMass_kg, right: rightMass_kg },
    unsprung_kg,
    brakes: loads.brakes ?? "outboard",
    cases: loads.cases?.map((one, i) => resolveCase(one, `loads.cases[${i}]`)) ?? null,
    target: loads.target ?? null,
    materials: loads.materials ?? [],
    tubes: (loads.tubes ?? []).map((tube, i) => {
      const path = `loads.tubes[${i}]`;
      mustName(tube.member, [...members.keys()], `${path}.member`);
      const kind = members.get(tube.member)!;
      const stretches = STRETCHES[kind] ?? [];
      if (tube.section && !stretches.includes(tube.section)) {
        const wanted =
          stretches.length > 0 ? `one of ${stretches.join(", ")}, or none` : "none: this part has no stretches";
        throw refuse("wrong-value", `${path}.section`, `a ${kind} has no ${tube.section} stretch`, wanted);
      }
      const isOneWithHub = kind === "ball" || kind === "hinge";
      if (isOneWithHub !== (tube.cut !== undefined)) {
        const wrong = isOneWithHub
          ? `the ${kind} ${tube.member} is one with the hub: where is it this tube?`
          : `the ${kind} ${tube.member} is a bar of its own and is not cut`;
        throw refuse("wrong-value", `${path}.cut`, wrong, isOneWithHub ? "a point at which it is cut" : "no cut");
      }
      return { ...tube, cut: tube.cut === undefined ? null : drawn(tube.cut, `${path}.cut`) };
    }),
    bolts: (loads.bolts ?? []).map((bolt, i) => ({
      ...bolt,
      axis: bolt.axis ? unitVector(bolt.axis, `loads.bolts[${i}].axis`, context) : null,
    })),
    plates: loads.plates ?? [],
    welds: loads.welds ?? [],
    ratings: loads.ratings ?? [],
  };

  function resolveCase(one: NonNullable<NonNullable<SceneDocument["loads"]>["cases"]>[number], path: string): LoadCase {
    if (!one.timesStatic && !one.force_N)
      throw refuse("wrong-value", path, `the load case ${shortQuote(one.id)} has no force`, "timesStatic or force_N");
    if (one.torque === "shaft" && !document.driveshaft)
      throw refuse("wrong-value", `${path}.torque`, "the scene has no driveshaft", "carrier or free");
    if (one.roll_deg && !document.antiRollBar)
      throw refuse("wrong-value", `${path}.roll_deg`, "the scene has no anti-roll bar", "no roll_deg");
    return {
      id: one.id,
      timesStatic: along(one.timesStatic),
      force_N: along(one.force_N),
      torque: one.torque ?? null,
      roll_deg: one.roll_deg ?? 0,
    };
  }

  function mustName(id: string, known: readonly string[], path: string): void {
    if (known.includes(id)) return;
    const nearest = nearestOf(id, known);
    const wanted = nearest ? `${nearest}?` : `one of ${known.join(", ")}`;
    throw refuse("missing-id", path, `${shortQuote(id)} names nothing here`, wanted);
  }

  function checkOnce(ids: readonly string[], list: string, what: string): void {
    ids.forEach((id, i) => {
      if (ids.indexOf(id) === i) return;
      throw refuse(
        "duplicate-id",
        `loads.${list}[${i}].id`,
        `another ${what} has the id ${shortQuote(id)}`,
        "an id of its own",
      );
    });
  }
}

function along(
  record:
    | { readonly forward?: number | undefined; readonly out?: number | undefined; readonly up?: number | undefined }
    | undefined,
): Vec3 {
  return [record?.forward ?? 0, record?.out ?? 0, record?.up ?? 0];
}
