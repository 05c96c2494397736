import { withAside } from "./aside.ts";
import type { SceneDocument } from "./document.ts";
import { readable } from "./parts/parts.ts";
import type { TubeEnd } from "./tubeEnds.ts";

/** The document with how a tube ends at one joint, in the place of what was told of it before. Throws InputError as reading and resolving do. */
export function withTubeEnd(document: SceneDocument, end: TubeEnd): SceneDocument {
  const ends = document.tubeEnds ?? [];
  const place = ends.findIndex(({ joint }) => joint === end.joint);
  const told = Object.fromEntries(Object.entries(end).filter(([, value]) => value !== undefined)) as TubeEnd;
  return readable(withAside(document, { tubeEnds: place < 0 ? [...ends, told] : ends.with(place, told) }));
}

/** The document with nothing told of how the tube ends there. */
export function withoutTubeEnd(document: SceneDocument, joint: string): SceneDocument {
  const ends = (document.tubeEnds ?? []).filter((end) => end.joint !== joint);
  return readable(withAside(document, { tubeEnds: ends.length === 0 ? undefined : ends }));
}
