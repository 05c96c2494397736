import type { SceneDocument } from "./document.ts";
import { type PointUse, usesByName } from "./pointUses.ts";

const known = new WeakMap<SceneDocument, ReadonlyMap<string, string>>();

/** What each named point rides on: "chassis", "powertrain", "carrier" or the id of a member or of what a body rides on. */
export function ridesOfPoints(document: SceneDocument): ReadonlyMap<string, string> {
  let rides = known.get(document);
  if (!rides) {
    const uses = usesByName(document);
    rides = new Map(Object.keys(document.points).map((name) => [name, rideOf(document, uses.get(name) ?? [])]));
    known.set(document, rides);
  }
  return rides;
}

function rideOf(document: SceneDocument, uses: readonly PointUse[]): string {
  if (uses.some(({ isMount }) => isMount)) return "chassis";
  const ends = uses.filter(isPartEnd);
  if (ends.length > 0) {
    if (ends.every(({ path }) => path.endsWith(".inner"))) return "powertrain";
    if (ends.some(({ path }) => path === "damper.bottom")) return document.damper?.on ?? "carrier";
    if (ends.some(({ path }) => path.startsWith("antiRollBar."))) return document.antiRollBar?.on ?? "carrier";
    return "carrier";
  }
  const body = uses.find(({ user }) => user === "body");
  return document.bodies.find(({ id }) => id === body?.id)?.on ?? "chassis";
}

/** Whether a part's own end lies here, rather than a shape that is drawn from it. */
export function isPartEnd(use: PointUse): boolean {
  if (["body", "datum", "powertrain", "service"].includes(use.user)) return false;
  return use.user !== "member" || !/\.(body|made|cut)\b/.test(use.path);
}
