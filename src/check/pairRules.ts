import { distance } from "../maths/vec3.ts";
import type { Clearances, Scene } from "../scene/scene.ts";
import type { ModelBody } from "./model.ts";

type Named = Pick<ModelBody, "id" | "role">;
type Placed = Pick<ModelBody, "id" | "mount">;

/** How closely a rule's term names the body: 2 its id, 1 its role, 0 any; −1 not at all. */
function closeness(term: string, body: Named): number {
  if (term === body.id) return 2;
  if (term === "*") return 0;
  return body.role !== null && term === `role:${body.role}` ? 1 : -1;
}

/** Higher for the more specific rule: an id anywhere beats any number of roles, a role beats any number of "*". */
function specificity(rule: { readonly a: string; readonly b: string }, a: Named, b: Named): number {
  const score = (first: number, second: number) =>
    first < 0 || second < 0 ? -1 : Math.max(first, second) * 3 + Math.min(first, second);
  return Math.max(score(closeness(rule.a, a), closeness(rule.b, b)), score(closeness(rule.a, b), closeness(rule.b, a)));
}

/** Clearance asked for between two bodies, mm: of several rules the most specific holds, then the last. */
export function requiredClearance(clearances: Clearances, a: Named, b: Named): number {
  let required_mm = clearances.default_mm;
  let best = -1;
  for (const rule of clearances.rules) {
    const score = specificity(rule, a, b);
    if (score >= 0 && score >= best) {
      best = score;
      required_mm = rule.mm;
    }
  }
  return required_mm;
}

/** Why the scene leaves this pair out of the count; null: it does not. */
export function acceptedWhy(clearances: Clearances, a: Named, b: Named): string | null {
  return clearances.accept.findLast((entry) => specificity(entry, a, b) >= 0)?.why ?? null;
}

/**
 * Which mounts can never move relative to each other: mounts of one cluster make no pair. Ball, hinge and strut parts
 * are one with the carrier.
 */
export function rigidCluster(scene: Scene): (mount: string) => string {
  const cluster = new Map<string, string>();
  for (const member of scene.members) {
    if (member.kind === "ball" || member.kind === "hinge" || member.kind === "strut") cluster.set(member.id, "carrier");
  }
  return (mount) => cluster.get(mount) ?? mount;
}

/** True where two bodies can move relative to each other and neither is meant to slide in the other. */
export function canMeet(scene: Scene, a: Placed, b: Placed): boolean {
  const of = rigidCluster(scene);
  const mounts = new Set([of(a.mount), of(b.mount)]);
  if (mounts.size === 1) return false;
  if (mounts.has("damper-upper") && mounts.has("damper-lower")) return false;
  if (mounts.has("carrier") && isStrutDamper(scene)) {
    // the tube is clamped in the carrier and the rod slides inside it; the spring above still passes the wheel
    if (mounts.has("damper-lower") || a.id === "damper-upper" || b.id === "damper-upper") return false;
  }
  if (mounts.has("chassis") && mounts.has("powertrain")) {
    return scene.powertrain.poses.length > 1 || scene.powertrain.place !== null;
  }
  return true;
}

const SAME_POINT_MM = 1;

function isStrutDamper(scene: Scene): boolean {
  const { damper } = scene;
  if (damper?.on !== "carrier") return false;
  return scene.members.some((member) => {
    if (member.kind !== "strut") return false;
    return distance(member.top, damper.top) < SAME_POINT_MM;
  });
}
