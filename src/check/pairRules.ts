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

/** How closely the two terms of a rule name one body. */
type Closeness = readonly [a: number, b: number];

/** Higher for the more specific rule: an id anywhere beats any number of roles, a role beats any number of "*"; −1: not these two. */
function specificity(first: Closeness, second: Closeness): number {
  return Math.max(score(first[0], second[1]), score(second[0], first[1]));
}

function score(first: number, second: number): number {
  return first < 0 || second < 0 ? -1 : Math.max(first, second) * 3 + Math.min(first, second);
}

/** Tells the clearance asked for between two bodies, mm: of several rules the most specific holds, then the last. */
export function requiredClearance({ rules, default_mm }: Clearances): (a: Named, b: Named) => number {
  const known = new Map<Named, Closeness[]>();
  const closenessOf = (body: Named): Closeness[] => {
    let found = known.get(body);
    if (!found) {
      found = rules.map((rule) => [closeness(rule.a, body), closeness(rule.b, body)]);
      known.set(body, found);
    }
    return found;
  };
  return (a, b) => {
    const [ofA, ofB] = [closenessOf(a), closenessOf(b)];
    let required_mm = default_mm;
    let best = 0;
    for (let i = 0; i < rules.length; i++) {
      const score = specificity(ofA[i]!, ofB[i]!);
      if (score < best) continue;
      best = score;
      required_mm = rules[i]!.mm;
    }
    return required_mm;
  };
}

/** Why the scene leaves this pair out of the count; null: it does not. */
export function acceptedWhy(clearances: Clearances, a: Named, b: Named): string | null {
  const names = (entry: { readonly a: string; readonly b: string }, body: Named): Closeness => [
    closeness(entry.a, body),
    closeness(entry.b, body),
  ];
  return clearances.accept.findLast((entry) => specificity(names(entry, a), names(entry, b)) >= 0)?.why ?? null;
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

/** Tells how far what rides on a mount may be pushed off, mm: what is one with it gives as much. */
export function giveOf(scene: Scene): (mount: string) => number {
  const clusterOf = rigidCluster(scene);
  const most = new Map<string, number>();
  for (const { on, mm } of scene.give) most.set(clusterOf(on), Math.max(mm, most.get(clusterOf(on)) ?? 0));
  return (mount) => most.get(clusterOf(mount)) ?? 0;
}

/** Tells whether two bodies can move relative to each other and neither is meant to slide in the other. */
export function meetingRule(scene: Scene): (a: Placed, b: Placed) => boolean {
  const clusterOf = rigidCluster(scene);
  const strutDamper = isStrutDamper(scene);
  const engineMoves = scene.powertrain.poses.length > 1 || scene.powertrain.place !== null;
  return (a, b) => {
    const [p, q] = [clusterOf(a.mount), clusterOf(b.mount)];
    const are = (one: string, other: string) => (p === one && q === other) || (p === other && q === one);
    if (p === q || are("damper-upper", "damper-lower")) return false;
    // the tube is clamped in the carrier and the rod slides inside it; the spring above still passes the wheel
    if (strutDamper && are("carrier", "damper-lower")) return false;
    if (strutDamper && (p === "carrier" || q === "carrier") && (a.id === "damper-upper" || b.id === "damper-upper")) {
      return false;
    }
    return are("chassis", "powertrain") ? engineMoves : true;
  };
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
