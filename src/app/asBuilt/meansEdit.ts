import type { SceneDocument } from "../../scene/document.ts";
import type { Means } from "../../studies/asBuilt/means.ts";
import { memberMounts } from "./welded.ts";

export type MeansKind = Means["kind"];

/** How far each reaches either way, and in which steps, to begin with: common practice, no source. */
const USUAL = {
  slot: { from_mm: -5, to_mm: 5, step_mm: 0 },
  shim: { from_mm: -3, to_mm: 3, step_mm: 1 },
  adjuster: { from_mm: -5, to_mm: 5, step_mm: 0.5 },
} as const;

export function linksOf(document: SceneDocument): SceneDocument["members"] {
  return document.members.filter(({ kind }) => kind === "link");
}

/** What is added next: a slot across of the next mount; null where no mount holds a member. */
export function firstMeans(document: SceneDocument, already: number): Means | null {
  const mounts = memberMounts(document);
  const mount = mounts[already % Math.max(1, mounts.length)];
  return mount ? { kind: "slot", point: mount.name, along: "out", ...USUAL.slot } : null;
}

/** The same of another kind, with what is usual for that; where it sits is kept as far as it can be. */
export function changedMeans(document: SceneDocument, means: Means, kind: MeansKind): Means {
  if (kind === means.kind) return means;
  if (kind === "adjuster") {
    const links = linksOf(document);
    const own = links.find((link) => link.kind === "link" && "point" in means && link.inboard === means.point);
    const member = (own ?? links[0])?.id;
    return member === undefined ? means : { kind, member, ...USUAL.adjuster };
  }
  if (means.kind !== "adjuster") return { ...means, kind, ...USUAL[kind] };
  const mount = memberMounts(document)[0];
  return mount ? { kind, point: mount.name, along: "out", ...USUAL[kind] } : means;
}
