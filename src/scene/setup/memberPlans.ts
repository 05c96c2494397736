import type { Vec3 } from "../../maths/vec3.ts";
import type { MemberDocument, ShapeDocument } from "../document.ts";
import type { PlaceQuestion } from "./question.ts";
import type { CornerKind } from "./setupDocument.ts";

/** One end or bush of a member: where it is usually, from the wheel's centre, mm. */
export interface EndPlan {
  readonly point: string;
  readonly of?: PlaceQuestion["of"];
  readonly offset_mm: Vec3;
}

export interface MemberPlan {
  /** With the names of its points, without a body. */
  readonly member: MemberDocument;
  readonly ends: readonly EndPlan[];
  readonly usual_mm: number;
  /** What a member that has no plain body of its kind is drawn by at first. */
  body?(diameter_mm: number): ShapeDocument;
}

export interface KindPlan {
  readonly members: readonly MemberPlan[];
  /** What usually holds the damper's lower end. */
  readonly damperOn: string;
  /** The strut is the damper too: both share these two points. */
  readonly leg: { readonly top: string; readonly bottom: string } | null;
}

function link(id: string, [inboard, outboard]: readonly [Vec3, Vec3], diameter_mm: number): MemberPlan {
  const stem = id.replace(/-/g, ".");
  return {
    member: { id, kind: "link", inboard: `${stem}.in`, outboard: `${stem}.out`, stock: "made" },
    usual_mm: diameter_mm,
    ends: [
      { point: `${stem}.in`, offset_mm: inboard },
      { point: `${stem}.out`, offset_mm: outboard },
    ],
  };
}

function wishbone(id: string, [front, rear, outboard]: readonly [Vec3, Vec3, Vec3], diameter_mm: number): MemberPlan {
  return {
    member: {
      id,
      kind: "wishbone",
      front: `${id}.front`,
      rear: `${id}.rear`,
      outboard: `${id}.out`,
      stock: "made",
    },
    usual_mm: diameter_mm,
    ends: [
      { point: `${id}.front`, offset_mm: front },
      { point: `${id}.rear`, offset_mm: rear },
      { point: `${id}.out`, of: "wishbone", offset_mm: outboard },
    ],
  };
}

function tubes(pivots: readonly string[]) {
  return (diameter_mm: number): ShapeDocument => {
    const parts = pivots.map((from) => ({ kind: "capsule" as const, from, to: "wheel.centre", diameter_mm }));
    return parts.length === 1 ? parts[0]! : { kind: "group", parts };
  };
}

const LOWER_WISHBONE = wishbone(
  "lower",
  [
    [60, -340, -110],
    [-150, -340, -110],
    [5, -58, -120],
  ],
  30,
);

/** The five corners at usual places: invented, of common size. */
export const KIND_PLANS: Readonly<Record<CornerKind, KindPlan>> = {
  "hub-and-arm": {
    damperOn: "carrier",
    leg: null,
    members: [
      {
        member: { id: "arm", kind: "ball", at: "arm.front", stock: "donor" },
        usual_mm: 48,
        body: tubes(["arm.front"]),
        ends: [{ point: "arm.front", offset_mm: [460, -150, -105] }],
      },
      link(
        "upper",
        [
          [60, -420, 110],
          [60, -90, 130],
        ],
        30,
      ),
      link(
        "lower",
        [
          [-40, -560, -110],
          [20, -85, -90],
        ],
        30,
      ),
    ],
  },
  wishbones: {
    damperOn: "lower",
    leg: null,
    members: [
      wishbone(
        "upper",
        [
          [120, -295, 115],
          [-30, -295, 118],
          [-4, -88, 140],
        ],
        26,
      ),
      LOWER_WISHBONE,
      link(
        "toe",
        [
          [115, -310, -60],
          [115, -50, -60],
        ],
        20,
      ),
    ],
  },
  "semi-trailing": {
    damperOn: "arm",
    leg: null,
    members: [
      {
        member: { id: "arm", kind: "hinge", front: "arm.outer", rear: "arm.inner", stock: "donor" },
        usual_mm: 48,
        body: tubes(["arm.outer", "arm.inner"]),
        ends: [
          { point: "arm.outer", offset_mm: [380, -150, 5] },
          { point: "arm.inner", offset_mm: [300, -510, 5] },
        ],
      },
    ],
  },
  strut: {
    damperOn: "carrier",
    leg: { top: "leg.top", bottom: "leg.bottom" },
    members: [
      {
        member: { id: "leg", kind: "strut", top: "leg.top", bottom: "leg.bottom", stock: "donor" },
        usual_mm: 50,
        ends: [
          { point: "leg.top", offset_mm: [-14, -190, 450] },
          { point: "leg.bottom", offset_mm: [-8, -146, 80] },
        ],
      },
      LOWER_WISHBONE,
      link(
        "toe",
        [
          [-186, -348, -98],
          [-142, -68, -105],
        ],
        20,
      ),
    ],
  },
  "five-links": {
    damperOn: "carrier",
    leg: null,
    members: [
      link(
        "upper-front",
        [
          [30, -295, 120],
          [22, -88, 140],
        ],
        24,
      ),
      link(
        "upper-rear",
        [
          [-112, -295, 125],
          [-70, -92, 135],
        ],
        24,
      ),
      link(
        "lower-front",
        [
          [56, -338, -113],
          [34, -66, -120],
        ],
        28,
      ),
      link(
        "lower-rear",
        [
          [-100, -342, -110],
          [-46, -66, -118],
        ],
        28,
      ),
      link(
        "toe",
        [
          [-186, -356, -94],
          [-142, -76, -100],
        ],
        20,
      ),
    ],
  },
};
