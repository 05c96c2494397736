import { add, type Vec3, ZERO } from "../maths/vec3.ts";
import type { PointDocument, SceneDocument } from "./document.ts";
import { InputError } from "./error.ts";
import { nearestOf } from "./nearest.ts";
import { childPath, shortQuote } from "./path.ts";

/** Turns POINTs into car coordinates, mm. `path` is the POINT's own JSON path, for errors. */
export interface PointResolver {
  /** Where it is drawn: this gives parts their length. */
  readonly drawn: (point: PointDocument, path: string) => Vec3;
  /** Where the mount is now: as drawn, unless the named point (or one that it hangs on) was moved by bolting up. */
  readonly mounted: (point: PointDocument, path: string) => Vec3;
}

/** Throws InputError `missing-point` for boltedUp entries without a point; the resolver `missing-point` and `circular-point`. */
export function pointResolver(document: SceneDocument, file = ""): PointResolver {
  const { points, boltedUp = {} } = document;
  for (const name of Object.keys(boltedUp)) {
    if (!Object.hasOwn(points, name)) throw missing(name, childPath("boltedUp", name));
  }
  const drawn = follower({});
  const mounted = Object.keys(boltedUp).length === 0 ? drawn : follower(boltedUp);
  return { drawn, mounted };

  /** Every entry hangs on one other at most, so a reference is a chain that a loop can follow. */
  function follower(fixed: Readonly<Record<string, Vec3>>): (point: PointDocument, path: string) => Vec3 {
    const known = new Map<string, Vec3>(Object.entries(fixed));
    return (point, path) => {
      const links: { name: string; by: Vec3 }[] = [];
      const onTheWay = new Set<string>();
      let next = point;
      let at = path;
      while (!isVector(next)) {
        const reference = typeof next === "string";
        const name: string = typeof next === "string" ? next : next.from;
        links.push({ name, by: typeof next === "string" ? ZERO : next.by });
        const place = known.get(name);
        if (place !== undefined) {
          next = place;
          break;
        }
        const referencePath = reference ? at : `${at}.from`;
        if (!Object.hasOwn(points, name)) throw missing(name, referencePath);
        if (onTheWay.has(name)) throw circular(links, referencePath);
        onTheWay.add(name);
        const entry: SceneDocument["points"][string] = points[name]!;
        next = isEntryRecord(entry) ? entry.at : entry;
        at = childPath("points", name) + (isEntryRecord(entry) ? ".at" : "");
      }
      let place: Vec3 = next as Vec3;
      for (const link of links.reverse()) {
        known.set(link.name, place);
        place = add(place, link.by);
      }
      return place;
    };
  }

  function missing(name: string, path: string): InputError {
    const names = Object.keys(points);
    const nearest = nearestOf(name, names);
    const some = `${names.slice(0, 12).join(", ")}${names.length > 12 ? ", …" : ""}`;
    const wanted = nearest
      ? `${nearest}?`
      : names.length > 0
        ? `one of the points ${some}`
        : "a name that stands in points";
    return new InputError("missing-point", { file, path }, `there is no point named ${shortQuote(name)}`, wanted);
  }

  function circular(links: readonly { name: string }[], path: string): InputError {
    const names = links.map((link) => link.name);
    const circle = names.slice(names.indexOf(names.at(-1)!));
    const told = circle.length > 9 ? [...circle.slice(0, 4), "…", ...circle.slice(-4)] : circle;
    const wrong = `points hang on each other in a circle: ${told.join(" → ")}`;
    return new InputError("circular-point", { file, path }, wrong, "one of them with coordinates of its own");
  }
}

export function isVector(point: PointDocument): point is Vec3 {
  return Array.isArray(point);
}

export function isEntryRecord(
  entry: SceneDocument["points"][string],
): entry is Exclude<SceneDocument["points"][string], Vec3> {
  return !Array.isArray(entry);
}
