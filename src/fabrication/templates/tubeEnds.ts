import { applyPose, turnByPose } from "../../maths/pose.ts";
import { add, cross, distance, dot, normalise, scale, subtract, type Vec3 } from "../../maths/vec3.ts";
import type { CutPart } from "./cutParts.ts";
import { distanceToSide, type Flat } from "./drawing.ts";
import type { OnSides } from "./flatPart.ts";
import { isWithin } from "./freeSpot.ts";
import { canMeet, type Meets, type TubeEnd } from "./mitre.ts";
import { type PlacedPiece, placedPieces } from "./pieces.ts";
import type { ZeroIs } from "./words.ts";

/** One end of a tube and what it is fitted to. */
export interface FittedEnd {
  /** The body it belongs to, and which of its tubes where there are several. */
  readonly of: string;
  readonly tube: string;
  /** The first or the last point of its path. */
  readonly which: "first" | "last";
  readonly sides: OnSides;
  readonly end: TubeEnd;
  readonly diameter_mm: number;
  readonly wall_mm: number | null;
  readonly met: readonly Met[];
  /** Of the straight run that ends here, and whether it is the whole tube. */
  readonly length_mm: number;
  readonly isStraight: boolean;
  /** Where the zero line lies: along the top of the tube, or along its front where the tube stands upright. */
  readonly zeroIs: ZeroIs;
}

export type Met = Meets & {
  readonly of: string;
  /** Whether a place on its endless surface is on the part itself, car coordinates. */
  readonly isOn: (place: Vec3) => boolean;
};

/** How near to what it meets a tube must end to be fitted to it, mm. */
const ENDS_WITHIN_mm = 3;
/** How far beyond its edge a part still counts as there, mm: drawn numbers are rounded. */
const EDGE_mm = 0.5;
/** Steeper than this against level a tube has no top. */
const UPRIGHT = 0.95;

interface Tube {
  readonly part: CutPart;
  readonly name: string;
  readonly path: readonly Vec3[];
  readonly diameter_mm: number;
  readonly wall_mm: number | null;
  readonly rank: number;
}

/** A straight cylinder that something may meet; `ends` where it belongs to a tube that ends there itself. */
interface Round {
  readonly of: string;
  readonly tube: Tube | null;
  readonly from: Vec3;
  readonly to: Vec3;
  readonly radius_mm: number;
}

interface Block {
  readonly of: string;
  readonly outline: readonly Flat[];
  readonly origin: Vec3;
  readonly u: Vec3;
  readonly v: Vec3;
  readonly thickness_mm: number;
}

/**
 * The ends of every tube that ends at another part of the same mount: at a tube, a boss or an eye (round), at a plate or a rail (flat). Of two
 * tubes that end at each other the thinner is fitted to the thicker, of equals the later to the earlier.
 */
export function fittedEnds(parts: readonly CutPart[], isWanted: (part: CutPart) => boolean): FittedEnd[] {
  const tubes: Tube[] = [];
  const rounds: (Round & { readonly mount: string })[] = [];
  const blocks: (Block & { readonly mount: string })[] = [];
  for (const part of parts) {
    const pieces = placedPieces(part.shape);
    const several = pieces.filter(({ piece }) => piece.kind === "tube").length > 1;
    let count = 0;
    for (const placed of pieces) {
      const { piece, pose } = placed;
      if (piece.kind === "tube") {
        count++;
        const tube: Tube = {
          part,
          name: several ? `${part.id} tube ${count}` : part.id,
          path: piece.path.map((p) => applyPose(pose, p)),
          diameter_mm: piece.diameter_mm,
          wall_mm: piece.wall_mm,
          rank: tubes.length,
        };
        tubes.push(tube);
        for (const [i, to] of tube.path.slice(1).entries()) {
          rounds.push({
            of: tube.name,
            mount: part.mount,
            tube,
            from: tube.path[i]!,
            to,
            radius_mm: tube.diameter_mm / 2,
          });
        }
      } else if (piece.kind === "cylinder" || piece.kind === "capsule") {
        const [from, to] = [applyPose(pose, piece.from), applyPose(pose, piece.to)];
        rounds.push({ of: part.id, mount: part.mount, tube: null, from, to, radius_mm: piece.diameter_mm / 2 });
      } else {
        const block = blockOf(part, placed);
        if (block) blocks.push({ ...block, mount: part.mount });
      }
    }
  }
  return tubes
    .filter(({ part }) => isWanted(part))
    .flatMap((tube) => {
      const here = (thing: { readonly mount: string }) => thing.mount === tube.part.mount;
      return (["first", "last"] as const).flatMap(
        (which) => fittedEnd(tube, which, rounds.filter(here), blocks.filter(here)) ?? [],
      );
    });
}

function fittedEnd(
  tube: Tube,
  which: FittedEnd["which"],
  rounds: readonly Round[],
  blocks: readonly Block[],
): FittedEnd | null {
  const path = which === "last" ? tube.path : [...tube.path].reverse();
  const [before, at] = [path.at(-2)!, path.at(-1)!];
  const leg_mm = distance(before, at);
  const out = normalise(subtract(at, before));
  const zeroIs: ZeroIs = Math.abs(out[2]) > UPRIGHT ? "front" : "top";
  const wanted: Vec3 = zeroIs === "top" ? [0, 0, 1] : [1, 0, 0];
  const zero = normalise(subtract(wanted, scale(out, dot(wanted, out))));
  const radius_mm = tube.diameter_mm / 2;
  const end: TubeEnd = { at, out, radius_mm, bore_mm: radius_mm - (tube.wall_mm ?? 0), zero };
  const start = subtract(at, scale(out, Math.min(leg_mm, 4 * tube.diameter_mm) * 0.999));
  const met: Met[] = [];
  for (const round of rounds) {
    if (round.tube === tube || (round.tube && givesWay(round.tube, tube, at))) continue;
    const meets: Meets = {
      kind: "round",
      at: round.from,
      axis: normalise(subtract(round.to, round.from)),
      radius_mm: round.radius_mm,
    };
    if (canMeet(end, meets) && axisEnters(start, end, round)) {
      met.push({ ...meets, of: round.of, isOn: (place) => isBeside(place, round) });
    }
  }
  for (const block of blocks) {
    const face = faceMet(start, end, block);
    if (face && canMeet(end, face)) met.push({ ...face, of: block.of, isOn: (place) => isAgainst(place, block) });
  }
  if (met.length === 0) return null;
  return {
    of: tube.part.id,
    tube: tube.name,
    which,
    sides: tube.part.sides,
    end,
    diameter_mm: tube.diameter_mm,
    wall_mm: tube.wall_mm,
    met,
    length_mm: leg_mm,
    isStraight: tube.path.length === 2,
    zeroIs,
  };
}

/** Whether the other tube, which ends here as well, is the one that is fitted. */
function givesWay(other: Tube, tube: Tube, at: Vec3): boolean {
  const near = (other.diameter_mm + tube.diameter_mm) / 2;
  const endsHere = [other.path[0]!, other.path.at(-1)!].some((end) => distance(end, at) <= near);
  if (!endsHere) return false;
  return other.diameter_mm < tube.diameter_mm || (other.diameter_mm === tube.diameter_mm && other.rank > tube.rank);
}

/** Whether the centre line comes from outside and is within the round part, or nearly, where the tube ends. */
function axisEnters(start: Vec3, { at }: TubeEnd, { from, to, radius_mm }: Round): boolean {
  return distanceToSegment(start, from, to) > radius_mm && distanceToSegment(at, from, to) < radius_mm + ENDS_WITHIN_mm;
}

/** Between the ends of the round part; a bent tube goes on past the end of a straight run. */
function isBeside(place: Vec3, { from, to, radius_mm, tube }: Round): boolean {
  const run = subtract(to, from);
  const along = dot(subtract(place, from), run) / dot(run, run);
  const spare = (EDGE_mm + (tube && tube.path.length > 2 ? radius_mm : 0)) / distance(from, to);
  return along >= -spare && along <= 1 + spare;
}

function isAgainst(place: Vec3, { origin, u, v, outline, thickness_mm }: Block): boolean {
  const from = subtract(place, origin);
  const height = dot(from, cross(u, v));
  if (height < -EDGE_mm || height > thickness_mm + EDGE_mm) return false;
  const flat: Flat = [dot(from, u), dot(from, v)];
  return (
    isWithin(flat, outline) ||
    outline.some((a, i) => distanceToSide(flat, a, outline[(i + 1) % outline.length]!) <= EDGE_mm)
  );
}

function distanceToSegment(p: Vec3, a: Vec3, b: Vec3): number {
  const run = subtract(b, a);
  const t = Math.min(1, Math.max(0, dot(subtract(p, a), run) / dot(run, run)));
  return distance(p, add(a, scale(run, t)));
}

function blockOf(part: CutPart, { piece, pose }: PlacedPiece): Block | null {
  if (piece.kind === "prism") {
    return {
      of: part.id,
      outline: piece.outline,
      origin: applyPose(pose, piece.origin),
      u: turnByPose(pose, piece.u),
      v: turnByPose(pose, piece.v),
      thickness_mm: piece.thickness_mm,
    };
  }
  if (piece.kind !== "box") return null;
  const [x, y, z] = piece.size_mm;
  return {
    of: part.id,
    outline: [
      [-x / 2, -y / 2],
      [x / 2, -y / 2],
      [x / 2, y / 2],
      [-x / 2, y / 2],
    ],
    origin: applyPose(pose, [0, 0, -z / 2]),
    u: turnByPose(pose, [1, 0, 0]),
    v: turnByPose(pose, [0, 1, 0]),
    thickness_mm: z,
  };
}

/** The face of a block through which the centre line enters it before the tube ends, or nearly. */
function faceMet(start: Vec3, { at, out }: TubeEnd, block: Block): (Meets & { kind: "flat" }) | null {
  const w = cross(block.u, block.v);
  const within = (p: Vec3): Vec3 => {
    const from = subtract(p, block.origin);
    return [dot(from, block.u), dot(from, block.v), dot(from, w)];
  };
  const [p, d] = [within(start), [dot(out, block.u), dot(out, block.v), dot(out, w)] as Vec3];
  const furthest = distance(start, at) + ENDS_WITHIN_mm;
  let first: { along: number; normal: Vec3 } | null = null;
  const offer = (along: number, normal: Vec3) => {
    if (along > 0 && along <= furthest && (!first || along < first.along)) first = { along, normal };
  };
  const isInside = isWithin([p[0], p[1]], block.outline) && p[2] > 0 && p[2] < block.thickness_mm;
  if (isInside) return null;
  for (const [height, normal] of [
    [0, scale(w, -1)],
    [block.thickness_mm, w],
  ] as const) {
    if (dot(out, normal) >= 0) continue;
    const along = (height - p[2]) / d[2];
    if (isWithin([p[0] + along * d[0], p[1] + along * d[1]], block.outline)) offer(along, normal);
  }
  for (const [i, a] of block.outline.entries()) {
    const b = block.outline[(i + 1) % block.outline.length]!;
    const [du, dv] = [b[0] - a[0], b[1] - a[1]];
    const across = d[0] * dv - d[1] * du;
    if (Math.abs(across) < 1e-9) continue;
    const along = ((a[0] - p[0]) * dv - (a[1] - p[1]) * du) / across;
    const share = ((p[0] + along * d[0] - a[0]) * du + (p[1] + along * d[1] - a[1]) * dv) / (du * du + dv * dv);
    const height = p[2] + along * d[2];
    if (share < 0 || share > 1 || height < 0 || height > block.thickness_mm) continue;
    const normal = normalise(add(scale(block.u, dv), scale(block.v, -du)));
    offer(along, dot(normal, out) < 0 ? normal : scale(normal, -1));
  }
  const found = first as { along: number; normal: Vec3 } | null;
  return found && { kind: "flat", at: add(start, scale(out, found.along)), normal: found.normal };
}
