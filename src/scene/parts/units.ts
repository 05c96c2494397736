import { add, distance, normalise, scale, subtract, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../document.ts";
import { pointResolver } from "../pointResolver.ts";
import type { MadeDocument } from "../recipes/made.ts";
import { usualMade } from "../recipes/makeShape.ts";
import { addParts, type NewPart, withUnit } from "./add.ts";
import { freeId, freePoint } from "./parts.ts";

/** The units that a corner has once, at usual sizes beside its own wheel. Common practice, no source. */

export type Unit = "damper" | "antiRollBar" | "driveshaft";

/** From the wheel's centre, mm. */
const PLACES: Readonly<Record<string, Vec3>> = {
  "damper.top": [-60, -190, 335],
  "damper.bottom": [-40, -110, -80],
  "bar.pivot": [-230, -410, 20],
  "bar.arm": [-60, -390, 30],
  "bar.pickup": [-60, -180, -60],
  "shaft.in": [10, -540, 10],
  "shaft.out": [0, -68, 0],
};

/**
 * The corner with a damper and spring, an anti-roll bar with its drop links and clamp, or a driveshaft with joints and
 * boots. A driveshaft that is there already gets the joints and boots that it lacks. Throws InputError as addPart.
 */
export function addUnit(document: SceneDocument, unit: Unit): SceneDocument {
  if (unit === "damper") return addDamper(document);
  return unit === "antiRollBar" ? addBar(document) : addShaft(document);
}

function addDamper(document: SceneDocument): SceneDocument {
  if (document.damper) return document;
  const { grown, names, places } = withPlaces(document, ["damper.top", "damper.bottom"]);
  const drawn_mm = distance(places[0]!, places[1]!);
  return withUnit(grown, "damper", {
    top: names[0]!,
    bottom: names[1]!,
    on: "carrier",
    closed_mm: Math.round(drawn_mm * 0.78),
    open_mm: Math.round(drawn_mm * 1.16),
    body_mm: 50,
    spring_mm: 90,
  });
}

function addBar(document: SceneDocument): SceneDocument {
  if (document.antiRollBar) return document;
  const { grown, names } = withPlaces(document, ["bar.pivot", "bar.arm", "bar.pickup"]);
  const [pivot, arm, pickup] = names as [string, string, string];
  const bar = { pivot, axis: [0, 1, 0] as const, arm, pickup, on: "carrier", diameter_mm: 20 };
  const clamp = { ...usualMade("bar clamp"), at: pivot, bush_mm: 38 };
  return addParts(withUnit(grown, "antiRollBar", bar), [
    { id: freeId(document, "bar clamp"), on: "chassis", made: clamp, mirror: true },
  ]);
}

function addShaft(document: SceneDocument): SceneDocument {
  const withShaft = document.driveshaft ? document : bareShaft(document);
  const { inner, outer, innerAxis } = withShaft.driveshaft!;
  const { drawn } = pointResolver(withShaft);
  const inward = normalise(subtract(drawn(inner, "driveshaft.inner"), drawn(outer, "driveshaft.outer")));
  const housing = { ...usualMade("joint housing"), flange_mm: 0 };
  const wanted: readonly (readonly [string, string, MadeDocument])[] = [
    ["inner joint", "powertrain", { ...usualMade("joint housing"), at: inner, axis: innerAxis }],
    ["outer joint", "carrier", { ...housing, at: outer, axis: tidy(inward), behind_mm: 30 }],
    ["inner boot", "driveshaft", { ...usualMade("joint boot"), at: inner, along: outer }],
    ["outer boot", "driveshaft", { ...usualMade("joint boot"), at: outer, along: inner }],
  ];
  const parts = wanted
    .filter(([id]) => !withShaft.bodies.some((body) => body.id === id))
    // the powertrain stands once in the car: its joint housing on the right is the left one's image
    .map(([id, on, made]): NewPart => ({ id, on, made, mirror: on === "powertrain" }));
  return withBootsExcused(addParts(withShaft, parts));
}

/** A boot is clamped round its joint's housing and folds with it, which its drawn shape does not. */
function withBootsExcused(document: SceneDocument): SceneDocument {
  const { accept = [] } = document.clearances;
  const ids = document.bodies.map(({ id }) => id);
  const excused = ["inner", "outer"]
    .map((end) => ({ a: `${end} boot`, b: `${end} joint`, why: "the boot is clamped to it and folds" }))
    .filter(({ a, b }) => ids.includes(a) && ids.includes(b))
    .filter(({ a, b }) => !accept.some((pair) => [pair.a, pair.b].sort().join() === [a, b].join()));
  if (excused.length === 0) return document;
  return { ...document, clearances: { ...document.clearances, accept: [...accept, ...excused] } };
}

function bareShaft(document: SceneDocument): SceneDocument {
  const { grown, names, places } = withPlaces(document, ["shaft.in", "shaft.out"]);
  const drawn_mm = distance(places[0]!, places[1]!);
  return withUnit(grown, "driveshaft", {
    inner: names[0]!,
    innerAxis: [0, 1, 0],
    outer: names[1]!,
    diameter_mm: 28,
    shortest_mm: Math.round(drawn_mm - 22),
    longest_mm: Math.round(drawn_mm + 22),
    innerAngleLimit_deg: 23,
    outerAngleLimit_deg: 45,
  });
}

function withPlaces(document: SceneDocument, wanted: readonly string[]) {
  const centre = pointResolver(document).drawn(document.wheel.centre, "wheel.centre");
  const points: Record<string, Vec3> = {};
  const names = wanted.map((name) => {
    const free = freePoint(document, name);
    points[free] = add(centre, PLACES[name]!);
    return free;
  });
  const grown = { ...document, points: { ...document.points, ...points } };
  return { grown, names, places: names.map((name) => points[name]!) };
}

function tidy(direction: Vec3): Vec3 {
  return scale(direction.map((value) => Math.round(value * 1e6)) as unknown as Vec3, 1e-6);
}
