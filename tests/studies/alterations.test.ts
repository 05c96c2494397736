// What clears the upper link of the sump rail beside a pivot that moves, held against lines in space, closed forms and whole checks of
// everything that is a little smaller.
import { describe, expect, it } from "vitest";
import type { Solid } from "../../src/geometry/solid.ts";
import { compileCorner } from "../../src/kinematics/corner.ts";
import { readCorner } from "../../src/kinematics/readings.ts";
import { length, type Vec3 } from "../../src/maths/vec3.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { placePowertrain } from "../../src/scene/parts/powertrain.ts";
import { resolveScene } from "../../src/scene/resolve.ts";
import type { LinkMember } from "../../src/scene/scene.ts";
import { fullCheck } from "../../src/studies/fullCheck.ts";
import { altered, TURNS, type Turn } from "../../src/studies/moves/alter.ts";
import { bentAs, type FoundAlteration, findAlterations, towardsOf } from "../../src/studies/moves/alterations.ts";
import { findMoves } from "../../src/studies/moves/moves.ts";
import { StudyStopped } from "../../src/studies/stopped.ts";
import { agreesWithin } from "../truth/agreement.ts";
import { railGap, railOnly } from "./railCorner.ts";
import { studyCorner } from "./studyCorner.ts";

/** The rail wants 6 mm: 5.9 are lacking. */
const corner = (mm = 6): SceneDocument => ({
  ...railOnly(),
  clearances: { default_mm: 0, rules: [{ a: "sump-rail", b: "upper", mm }] },
});
const NONE: ReadonlyMap<string, Solid> = new Map();
const railOf = (document: SceneDocument) =>
  fullCheck(document, NONE, "rail").pairs.find(({ a, b }) => a === "sump-rail" && b === "upper")!;

describe("parts altered to clear a rail by 6 mm", () => {
  const target = railOf(corner());
  let known: FoundAlteration[] | null = null;
  /** Asked within a test, whose time is longer than a hook's. */
  const foundOnce = (): FoundAlteration[] => {
    if (known) return known;
    const { limits } = fullCheck(corner(), NONE, "limits");
    const leaveOut = limits.filter(({ verdict }) => verdict === "clash").map(({ what }) => what);
    const request = { document: corner(), meshFiles: NONE, targets: [target], leaveOut, within_mm: 10 };
    known = findAlterations(
      request,
      () => {},
      () => false,
    );
    return known;
  };
  const smallest = (kind: string, fit?: string) =>
    foundOnce()
      .filter(({ alteration, ...each }) => alteration.kind === kind && (fit === undefined || each.fit === fit))
      .sort((a, b) => a.way_mm - b.way_mm)[0]!;

  it("make the link as thin as twice what is lacking (closed form)", () => {
    const { alteration, fit } = smallest("thinner");
    if (alteration.kind !== "thinner") throw new Error("another kind");
    const exact = 30 - 2 * (6 - railGap(corner()));
    agreesWithin("alteredThinner", alteration.diameter_mm, exact, 0.3);
    expect(alteration.diameter_mm).toBeLessThanOrEqual(exact + 0.05);
    expect(fit).toBe("cut");
  });

  it("all clear in the whole check, with every other pair", () => {
    expect(new Set(foundOnce().map(({ alteration }) => alteration.kind))).toEqual(
      new Set(["thinner", "bent", "shifted", "turned"]),
    );
    for (const kind of ["thinner", "bent", "shifted", "turned"]) {
      const { pairs } = fullCheck(altered(corner(), smallest(kind).alteration), NONE, kind);
      expect(
        pairs.filter(({ verdict }) => verdict === "clash" || verdict === "tight"),
        kind,
      ).toEqual([]);
    }
  });

  it("bend the link by the least bow: 1 mm less in any direction leaves the rail too near", () => {
    const { alteration } = smallest("bent");
    if (alteration.kind !== "bent") throw new Error("another kind");
    const member = corner().members.find(({ id }) => id === "upper")!;
    const link = resolveScene(corner()).members.find(({ id }) => id === "upper") as LinkMember;
    if (member.kind !== "link") throw new Error("no link");
    for (const toward of towardsOf(link, [target])) {
      const less = bentAs(member, link, { bow_mm: alteration.bow_mm - 1, toward, flatShare: 0.6 });
      if (less) expect(railOf(altered(corner(), less)).verdict, `${toward}`).not.toBe("clear");
    }
  });

  it("shift the powertrain the shortest way: every place of a 2 mm lattice that is 1 mm nearer fails", () => {
    const { way_mm, alteration } = smallest("shifted");
    if (alteration.kind !== "shifted") throw new Error("another kind");
    const gapAt = (shift_mm: Vec3) =>
      railGap(placePowertrain(corner(), { shift_mm, turn_deg: [0, 0, 0], about: [0, 0, 0] }));
    const most = Math.ceil(way_mm / 2);
    let nearer = 0;
    for (let x = -most; x <= most; x++) {
      for (let y = -most; y <= most; y++) {
        for (let z = -most; z <= most; z++) {
          const by: Vec3 = [2 * x, 2 * y, 2 * z];
          if (length(by) > way_mm - 1) continue;
          nearer++;
          expect(gapAt(by), by.join()).toBeLessThan(6);
        }
      }
    }
    expect(nearer).toBeGreaterThan(20);
    agreesWithin("alteration", gapAt(alteration.by), 6, 0.2);
    agreesWithin("alteration", length(alteration.by), way_mm, 1e-9);
  });

  it("turn it no further than it takes", () => {
    const { alteration } = smallest("turned");
    if (alteration.kind !== "turned") throw new Error("another kind");
    const gapAt = (by_deg: number) => railGap(altered(corner(), { ...alteration, by_deg }));
    const gapTurned = (about: Vec3, by_deg: number, turn: Turn) => {
      const turn_deg = TURNS.map((each) => (each === turn ? by_deg : 0)) as unknown as Vec3;
      return railGap(placePowertrain(corner(), { shift_mm: [0, 0, 0], turn_deg, about }));
    };
    agreesWithin("alteration", gapAt(alteration.by_deg), 6, 0.5);
    // the rail's edge turned about the place that is told, by hand
    agreesWithin("alteration", gapTurned(alteration.about, alteration.by_deg, alteration.turn), 6, 0.5);
    expect(gapAt(alteration.by_deg - 0.1 * Math.sign(alteration.by_deg))).toBeLessThan(6);
  });
});

describe("a powertrain shifted with its driveshaft", () => {
  const by: Vec3 = [0, 5, 0];
  const both = studyCorner({ sides: "both" });
  const ridden = (document: SceneDocument, side: "left" | "right") => {
    const scene = resolveScene(document);
    const bent = compileCorner(scene, side);
    const inner = scene.driveshaft!.inner[side];
    const shaft_mm = readCorner(bent, bent.ridePose, "rest").shaft_mm!;
    return [shaft_mm - inner.shortest_mm!, inner.longest_mm! - shaft_mm];
  };

  it.each(["left", "right"] as const)(
    "cut to suit leaves the %s joint where it stood in its stroke at ride",
    (side) => {
      const cut = altered(both, { kind: "shifted", by, fit: "cut" });
      ridden(cut, side).forEach((spare, i) => {
        expect(spare).toBeCloseTo(ridden(both, side)[i]!, 9);
      });
    },
  );

  it("as it is takes from one end what it gives the other, opposite on the two sides", () => {
    const shifted = altered(both, { kind: "shifted", by, fit: "bolted" });
    const [left, right] = (["left", "right"] as const).map(
      (side) => ridden(shifted, side)[0]! - ridden(both, side)[0]!,
    ) as [number, number];
    expect(left).toBeLessThan(-4);
    expect(right).toBeGreaterThan(4);
  });
});

it("alterations are asked where no point is named, priced by whole checks, and stop when they are not wanted", () => {
  const asked = {
    document: corner(1),
    meshFiles: NONE,
    pair: "sump-rail/upper",
    points: [],
    fits: ["cut"] as const,
    within_mm: 3,
    limits: {},
    travelStep_mm: 20,
    proved: 1,
  };
  const { alterations } = findMoves(asked);
  const thinner = alterations.find(({ alteration }) => alteration.kind === "thinner")!;
  expect(thinner.price!.open).toEqual([]);
  expect(thinner.price!.toe_deg.by).toBe(0);
  expect(() => findMoves(asked, undefined, () => true)).toThrow(StudyStopped);
});
