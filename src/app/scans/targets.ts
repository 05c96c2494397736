import { normalise, subtract, type Vec3 } from "../../maths/vec3.ts";
import type { Scene } from "../../scene/scene.ts";
import { t } from "../text/text.ts";
import type { MatchDraft, MatchTarget } from "./scanStore.ts";

/** Planes and lines of the car that have a name: ground, centre plane, datums; and lines between hard points. */
export function namedTargets(scene: Scene | null, kind: MatchDraft["kind"]): MatchTarget[] {
  if (kind === "cylinder" || !scene) return [];
  const planes: MatchTarget[] = [
    { name: t("scans.fit.targets.ground"), at: [0, 0, 0], way: [0, 0, 1] },
    { name: t("scans.fit.targets.centre"), at: [0, 0, 0], way: [0, 1, 0] },
  ];
  for (const { id, at, forward, up } of scene.datums) {
    planes.push({ name: t("scans.fit.targets.level", { datum: id }), at, way: up });
    planes.push({ name: t("scans.fit.targets.across", { datum: id }), at, way: forward });
  }
  return planes;
}

/** The line from one hard point to another; null where they are in one place. */
export function lineBetween(scene: Scene, from: string, to: string): MatchTarget | null {
  const [a, b] = [scene.points.get(from)?.at, scene.points.get(to)?.at];
  if (!a || !b) return null;
  const way: Vec3 = normalise(subtract(b, a));
  return way.every((part) => part === 0) ? null : { name: t("scans.fit.targets.line", { from, to }), at: a, way };
}
