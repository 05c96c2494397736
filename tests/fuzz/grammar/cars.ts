import { readFileSync } from "node:fs";
import fc from "fast-check";
import type { SceneDocument } from "../../../src/scene/document.ts";
import { smallScene } from "../../app/smallScene.ts";
import { hostileName, hostileText } from "./markup.ts";

type Json = Record<string, unknown>;

const SAVED = JSON.parse(readFileSync(new URL("../../fixtures/scene-version-1.json", import.meta.url), "utf8"));
const FEW = { tessellation_mm: 2, travel: { bump_mm: 20, droop_mm: 20, step_mm: 20 } };

/** Every kind of record, with nothing that takes long: no scan, few triangles, short travel. */
const EVERY_RECORD: Json = {
  ...SAVED,
  ...FEW,
  bodies: SAVED.bodies
    .filter(({ id }: { id: string }) => id !== "spare" && id !== "lumps")
    .concat({
      id: "tray",
      on: "chassis",
      shape: {
        kind: "prism",
        outline: [
          [-60, -30],
          [60, -30],
          [60, 30],
          [-60, 30],
        ],
        thickness_mm: 3,
        origin: [-300, 300, 500],
        u: [1, 0, 0],
        v: [0, 1, 0],
      },
    }),
};
const upper = {
  kind: "tube",
  path: [
    [0, 500, 430],
    [0, 650, 430],
  ],
  diameter_mm: 25,
  wall_mm: 2,
};
const WISHBONES: Json = {
  ...(smallScene() as unknown as Json),
  ...FEW,
  bodies: [...smallScene().bodies, { id: "upper tube", on: "carrier", shape: upper }],
};

/** Small cars that are checked in moments. */
export const SMALL_CARS: readonly SceneDocument[] = [EVERY_RECORD, WISHBONES] as unknown as SceneDocument[];

/** What a car's own names and texts are. */
const NAMES = [
  "upper.in",
  "upper.ear",
  "arm.front",
  "rail",
  "upper",
  "lower",
  "ear",
  "tray",
  "sump",
  "drive",
  "casing",
  "toe",
].concat(["upper.out", "pulling", "gearbox-mount-ear", "upper tube"]);

/** Every string and key that is one of the names as what it becomes. */
function renamed(value: unknown, names: ReadonlyMap<string, string>): unknown {
  if (typeof value === "string")
    return names.get(value) ?? (value.startsWith("role:") ? `role:${names.get(value.slice(5)) ?? ""}` : value);
  if (Array.isArray(value)) return value.map((each) => renamed(each, names));
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, each]) => [names.get(key) ?? key, renamed(each, names)]));
}

/** A small car with such names and texts in place of its own: what it has to name a part, a point, a pose or a datum by. */
export const hostileCars = fc
  .tuple(
    fc.constantFrom(...SMALL_CARS, EVERY_RECORD as unknown as SceneDocument),
    fc.constantFrom(/[#@*]/g, /[#@*/=]/g, /(?!)/g),
    fc.array(hostileName, { minLength: NAMES.length, maxLength: NAMES.length }),
    hostileText,
    hostileText,
  )
  .map(([car, taboo, all, title, note]) => {
    // signs that mean something else in the names of parts, or where ends and pairs are typed: most cars are without
    const drawn = all.map((name) => name.replace(taboo, "~"));
    const names = new Map<string, string>();
    const taken = new Set<string>();
    for (const [i, name] of NAMES.entries()) {
      const wanted = taken.has(drawn[i]!) ? `${drawn[i]!.slice(0, 76)}${i}` : drawn[i]!;
      taken.add(wanted);
      names.set(name, wanted);
    }
    const scene = { ...(renamed(car, names) as object), title, notes: note };
    return { scene, names };
  });
