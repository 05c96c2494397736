import { add, normalise, scale, subtract, type Vec3 } from "../../maths/vec3.ts";
import { InputError } from "../../scene/error.ts";
import { shortQuote } from "../../scene/path.ts";
import type { Member, Scene } from "../../scene/scene.ts";
import type { Direction, Mount } from "../jig/sensitivity.ts";

/** Something that can be set once all is welded: a mount in a slot or on shims along a direction, or a link with an adjuster. */
export type Means =
  | ({ readonly kind: "slot" | "shim"; readonly point: string; readonly along: Direction } & Range)
  /** Longer is +. */
  | ({ readonly kind: "adjuster"; readonly member: string } & Range);

/** What it reaches from where it stands now, in steps counted from there; a slot of step 0 takes any place. */
interface Range {
  readonly from_mm: number;
  readonly to_mm: number;
  readonly step_mm: number;
}

/** A slot without steps is set to this, mm. */
const FINEST_mm = 0.1;
const MOST_STEPS = 400;

export const ALONG: Readonly<Record<Direction, Vec3>> = { forward: [1, 0, 0], out: [0, 1, 0], up: [0, 0, 1] };

/** Every setting, in order, "as it is" among them where it is in reach. Throws InputError for a range without places or with too many. */
export function settingsOf(means: Means): number[] {
  const { from_mm, to_mm } = means;
  const step = means.step_mm > 0 ? means.step_mm : FINEST_mm;
  const first = Math.ceil(from_mm / step - 1e-9);
  const last = Math.floor(to_mm / step + 1e-9);
  if (!(last >= first) || last - first > MOST_STEPS) {
    const wrong = `${nameOfMeans(means)} reaches from ${from_mm} to ${to_mm} mm by ${means.step_mm}`;
    throw new InputError("wrong-value", { path: "means" }, wrong, `a range of 1 to ${MOST_STEPS} steps`);
  }
  return Array.from({ length: last - first + 1 }, (_, k) => (first + k) * step + 0);
}

export function nameOfMeans(means: Means): string {
  return means.kind === "adjuster" ? `adjuster of ${means.member}` : `${means.kind} of ${means.point}`;
}

/** Throws InputError for a point that holds no member, and for a member that is no link. */
export function checkMeans(scene: Scene, mounts: readonly Mount[], means: Means): void {
  if (means.kind === "adjuster") {
    const links = scene.members.filter(({ kind }) => kind === "link").map(({ id }) => id);
    if (links.includes(means.member)) return;
    throw new InputError(
      "missing-id",
      { path: "means" },
      `there is no link ${shortQuote(means.member)}`,
      links.join(", "),
    );
  }
  if (mounts.some(({ point }) => point === means.point)) return;
  const known = mounts.map(({ point }) => point).join(", ");
  throw new InputError("missing-point", { path: "means" }, `no member is held at ${shortQuote(means.point)}`, known);
}

/** The scene with a mount moved, every part as long as it is. */
export function withMountMoved(scene: Scene, mount: Mount, by: Vec3): Scene {
  const members = scene.members.map((member, index): Member => {
    const places = member as unknown as Readonly<Record<string, Vec3>>;
    const moved = mount.ends
      .filter((end) => end.member === index)
      .map(({ end }) => [`${end}Mounted`, add(places[`${end}Mounted`]!, by)] as const);
    return moved.length > 0 ? { ...member, ...Object.fromEntries(moved) } : member;
  });
  return { ...scene, members };
}

/** The scene with a link longer by so much, its mount where it is. */
export function withLinkLonger(scene: Scene, id: string, by_mm: number): Scene {
  const members = scene.members.map((member): Member => {
    if (member.id !== id || member.kind !== "link") return member;
    const inward = normalise(subtract(member.inboard, member.outboard));
    return { ...member, inboard: add(member.inboard, scale(inward, by_mm)) };
  });
  return { ...scene, members };
}

/** One of several means and what it is set to. */
export interface Setting {
  readonly means: Means;
  readonly by_mm: number;
}

export function withSettings(scene: Scene, mounts: readonly Mount[], settings: readonly Setting[]): Scene {
  return settings.reduce((set, { means, by_mm }) => {
    if (means.kind === "adjuster") return withLinkLonger(set, means.member, by_mm);
    const mount = mounts.find(({ point }) => point === means.point)!;
    return withMountMoved(set, mount, scale(ALONG[means.along], by_mm));
  }, scene);
}
