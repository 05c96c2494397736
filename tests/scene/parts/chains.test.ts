import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Vec3 } from "../../../src/maths/vec3.ts";
import type { SceneDocument } from "../../../src/scene/document.ts";
import { InputError } from "../../../src/scene/error.ts";
import { addPart, withSizes } from "../../../src/scene/parts/add.ts";
import { copyPart } from "../../../src/scene/parts/copy.ts";
import { mirrorAcross, withMirror } from "../../../src/scene/parts/mirror.ts";
import { changeMount } from "../../../src/scene/parts/mount.ts";
import { movePart } from "../../../src/scene/parts/move.ts";
import { freeId, partsOf } from "../../../src/scene/parts/parts.ts";
import { placePowertrain } from "../../../src/scene/parts/powertrain.ts";
import { consequencesOf, removePart } from "../../../src/scene/parts/remove.ts";
import { renamePart, withRole } from "../../../src/scene/parts/rename.ts";
import { withPoint } from "../../../src/scene/points.ts";
import { readScene } from "../../../src/scene/read.ts";
import { RECIPES } from "../../../src/scene/recipes/made.ts";
import { usualMade } from "../../../src/scene/recipes/makeShape.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { writeScene } from "../../../src/scene/write.ts";
import { withTwoParts } from "./document.ts";

type Edit = (document: SceneDocument) => SceneDocument;

const names = RECIPES.map(({ name }) => name);
const mm = fc.integer({ min: -60, max: 60 });
const by = fc.tuple(mm, mm, mm);
const pick = fc.nat(1000);
const partAt = (document: SceneDocument, n: number) => {
  const parts = partsOf(document);
  return parts[n % parts.length]!.id;
};
const mounts = ["chassis", "powertrain", "carrier", "upper", "toe", "damper-lower", "nowhere"];
const ids = ["ear", "tube", "clevis-9", "role:x", "upper", "spare part", "tyre"];

const edits: fc.Arbitrary<Edit> = fc.oneof(
  fc.tuple(fc.constantFrom(...names), fc.constantFrom(...mounts)).map(
    ([name, on]): Edit =>
      (document) =>
        addPart(document, { id: freeId(document, name), on, made: usualMade(name) }),
  ),
  fc.tuple(pick, by, fc.constantFrom("own" as const, "shared" as const)).map(
    ([n, shift_mm, points]): Edit =>
      (document) =>
        copyPart(document, partAt(document, n), { points, shift_mm }),
  ),
  fc.tuple(pick, fc.boolean()).map(
    ([n, both]): Edit =>
      (document) =>
        withMirror(document, partAt(document, n), both),
  ),
  pick.map(
    (n): Edit =>
      (document) =>
        mirrorAcross(document, partAt(document, n)),
  ),
  fc.tuple(pick, fc.boolean()).map(
    ([n, riders]): Edit =>
      (document) => {
        const id = partAt(document, n);
        return removePart(document, id, { riders, points: riders ? consequencesOf(document, id).points : [] });
      },
  ),
  fc.tuple(pick, fc.constantFrom(...ids)).map(
    ([n, to]): Edit =>
      (document) =>
        renamePart(document, partAt(document, n), to),
  ),
  fc.tuple(pick, fc.constantFrom(...mounts)).map(
    ([n, on]): Edit =>
      (document) =>
        changeMount(document, partAt(document, n), on),
  ),
  fc.tuple(pick, by).map(
    ([n, shift]): Edit =>
      (document) =>
        movePart(document, partAt(document, n), shift),
  ),
  fc.tuple(pick, fc.constantFrom("frame", "exhaust", null)).map(
    ([n, role]): Edit =>
      (document) =>
        withRole(document, partAt(document, n), role),
  ),
  fc.tuple(by, by).map(
    ([shift_mm, turn]): Edit =>
      (document) =>
        placePowertrain(document, { shift_mm, turn_deg: turn, about: [100, 0, 300] }),
  ),
  fc.tuple(pick, by).map(
    ([n, at]): Edit =>
      (document) => {
        const name = Object.keys(document.points)[n % Object.keys(document.points).length]!;
        return withPoint(document, name, [at[0], 400 + at[1], 300 + at[2]]);
      },
  ),
  fc.tuple(pick, mm).map(
    ([n, size]): Edit =>
      (document) => {
        const made = document.bodies[n % document.bodies.length]?.made;
        return made
          ? withSizes(document, document.bodies[n % document.bodies.length]!.id, { ...made, width_mm: size })
          : document;
      },
  ),
);

/** The edit's document; the one before where it is refused, which must be told with a mend. */
function attempt(document: SceneDocument, edit: Edit): SceneDocument {
  try {
    return edit(document);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    expect(error.wanted).not.toBe("");
    return document;
  }
}

describe("any chain of edits", () => {
  it("leaves a document whose file reads back the same and resolves", () => {
    fc.assert(
      fc.property(fc.array(edits, { minLength: 1, maxLength: 12 }), (chain) => {
        let document = withTwoParts();
        for (const edit of chain) {
          const before = JSON.stringify(document);
          const after = attempt(document, edit);
          // edits never write into the document they are given
          expect(JSON.stringify(document)).toBe(before);
          document = after;
        }
        const again = readScene(writeScene(document), "car.json");
        expect(again).toEqual(document);
        // a moved point may jam the members, which is told when the move is tried; all other edits must resolve
        attempt(again, (read) => {
          resolveScene(read);
          return read;
        });
      }),
      { numRuns: 60 },
    );
  }, 120_000);

  it("renames there and back without a trace", () => {
    fc.assert(
      fc.property(pick, (n) => {
        const document = withTwoParts();
        const parts = partsOf(document).filter(({ kind }) => kind === "body" || kind === "member");
        const { id } = parts[n % parts.length]!;
        expect(renamePart(renamePart(document, id, "another name"), "another name", id)).toEqual(document);
      }),
    );
  });

  it("adds and deletes without a trace, points and all", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...names),
        fc.constantFrom("chassis", "powertrain", "carrier", "upper"),
        (name, on) => {
          const document = withTwoParts();
          const made = usualMade(name);
          const [key] = Object.keys(made).filter((field) => field === "at" || field === "a" || field === "centre");
          const points: Record<string, Vec3> = key ? { "new.point": made[key] as unknown as Vec3 } : {};
          const hung = key ? { ...made, [key]: "new.point" } : made;
          const added = addPart(document, { id: "new", on, made: hung, points });
          expect(removePart(added, "new", { points: consequencesOf(added, "new").points })).toEqual(document);
        },
      ),
    );
  });

  it("moves there and back without a trace", () => {
    fc.assert(
      fc.property(fc.constantFrom("clevis", "tube", "rail"), by, (id, shift) => {
        const document = withTwoParts();
        const back = shift.map((value) => -value) as [number, number, number];
        const again = movePart(movePart(document, id, shift), id, back);
        expect(again).toEqual(document);
      }),
    );
  });
});
