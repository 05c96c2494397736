import { add, distance, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { shortQuote } from "../../scene/path.ts";
import { isChassisSide, listPoints, usersOfPoint, withBoltedUp, withPoint } from "../../scene/points.ts";

/**
 * What becomes of the parts on a hard point that moves. `cut`: they are cut to suit and the wheel stays; `bolted`: they keep
 * their lengths and the wheel goes where they put it, at the same travel.
 */
export type Fit = "cut" | "bolted";

/** A hard point and how far it is taken from where it is, car coordinates of the left side, mm. */
export interface PointMove {
  readonly point: string;
  readonly by: Vec3;
}

/** Hard points that a study moves. */
export class MovedPoints {
  readonly document: SceneDocument;
  readonly points: readonly string[];
  readonly fit: Fit;
  /** Where each is now. */
  private readonly bases: readonly Vec3[];

  /** Throws InputError for a name that is no hard point, for the wheel's centre, and for bolting up what sits on no chassis. */
  constructor(document: SceneDocument, points: readonly string[], fit: Fit) {
    const listed = listPoints(document);
    this.document = document;
    this.points = points;
    this.fit = fit;
    this.bases = points.map((name) => {
      const found = listed.find((point) => point.name === name);
      if (!found) {
        const known = listed.map((point) => point.name).join(", ");
        throw new InputError("missing-point", { path: "points" }, `there is no point ${shortQuote(name)}`, known);
      }
      refuseWheel(document, name);
      if (fit === "bolted" && !isChassisSide(document, name)) {
        throw new InputError(
          "wrong-value",
          { path: "points" },
          `no part is held to the chassis at ${shortQuote(name)}, so nothing is bolted up there`,
          `cut to suit, or one of ${listed
            .filter(({ isMount }) => isMount)
            .map((point) => point.name)
            .join(", ")}`,
        );
      }
      return found.boltedUpAt ?? found.at;
    });
  }

  /** Where each point is once it is so far from where it is now. */
  placesAt(offsets: readonly Vec3[]): Vec3[] {
    return this.bases.map((base, i) => add(base, offsets[i]!));
  }

  /** The document with every point so far from where it is now (nothing: as it is). */
  at(offsets: readonly Vec3[], of: SceneDocument = this.document): SceneDocument {
    const places = this.placesAt(offsets);
    return this.points.reduce((moved, name, i) => {
      const place = places[i]!;
      if (this.fit === "bolted") return withBoltedUp(moved, name, place);
      return withPoint(moved, name, place);
    }, of);
  }

  moves(offsets: readonly Vec3[]): PointMove[] {
    return this.points.map((point, i) => ({ point, by: offsets[i]! }));
  }

  /**
   * The document less every part that does not hang on these points and carries no other: what has to be read anew for each
   * place. Clearance rules, measures and the like go too.
   */
  reduced(): SceneDocument {
    const { document, points } = this;
    const kept = new Set(
      points.flatMap((name) =>
        usersOfPoint(document, name)
          .filter(({ user, path }) => user === "body" || /\.(body|made)\b/.test(path))
          .map(({ id }) => id),
      ),
    );
    const { measures: _measures, setup: _setup, measured: _measured, datums: _datums, ...rest } = document;
    const { jointRadius_mm } = document.clearances;
    return {
      ...rest,
      members: document.members.map((member) => {
        if (member.body === undefined || member.body === null || kept.has(member.id)) return member;
        const { made: _made, ...bare } = member;
        return { ...bare, body: null };
      }),
      bodies: document.bodies.filter(({ id }) => kept.has(id)),
      clearances: jointRadius_mm === undefined ? { default_mm: 0 } : { default_mm: 0, jointRadius_mm },
    };
  }
}

function refuseWheel(document: SceneDocument, name: string): void {
  if (!usersOfPoint(document, name).some(({ path }) => path === "wheel.centre")) return;
  throw new InputError(
    "wrong-value",
    { path: "points" },
    `${shortQuote(name)} is the wheel's centre, from which travel and angles are told`,
    "a hard point of the parts that hold the wheel",
  );
}

/** How far the farthest of the points is taken, mm. */
export function farthestMove(offsets: readonly Vec3[]): number {
  return offsets.reduce((most, offset) => Math.max(most, distance(offset, [0, 0, 0])), 0);
}
