import type { SceneDocument } from "../../../src/scene/document.ts";
import { addPart } from "../../../src/scene/parts/add.ts";
import { usualMade } from "../../../src/scene/recipes/makeShape.ts";
import { smallScene } from "../../app/smallScene.ts";

/** A corner with a clevis on a mount, a cross tube on points of its own, a rule and an accepted pair. Invented. */
export function withTwoParts(change: Partial<SceneDocument> = {}): SceneDocument {
  const bare = smallScene({
    damper: { top: [0, 500, 640], bottom: "lower.out", on: "lower", closed_mm: 300, open_mm: 500, body_mm: 50 },
    clearances: {
      default_mm: 10,
      rules: [
        { a: "clevis", b: "*", mm: 4 },
        { a: "role:frame", b: "upper", mm: 12 },
      ],
      accept: [{ a: "clevis", b: "toe", why: "pin" }],
    },
    ...change,
  });
  const { rules: _, accept: __, ...plain } = bare.clearances;
  const clevis = { ...usualMade("clevis"), at: "toe.in" };
  const tube = { ...usualMade("cross tube"), a: "tube.a", b: "tube.b" };
  const first = addPart({ ...bare, clearances: plain }, { id: "clevis", on: "chassis", made: clevis, mirror: true });
  const both = addPart(first, {
    id: "tube",
    on: "chassis",
    made: tube,
    points: { "tube.a": [-300, 280, 300], "tube.b": [-300, -280, 300] },
  });
  return { ...both, clearances: bare.clearances };
}
