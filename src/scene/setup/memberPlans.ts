import type { Vec3 } from "../../maths/vec3.ts";
import type { MemberDocument, ShapeDocument } from "../document.ts";
import type { CornerKind } from "./setupDocument.ts";

/** One end or bush of a member: what it is called, and where it is usually, from the wheel's centre, mm. */
export interface EndPlan {
  readonly point: string;
  readonly name: string;
  readonly ask: string;
  readonly how: string;
  readonly offset_mm: Vec3;
}

export interface MemberPlan {
  /** With the names of its points, without a body. */
  readonly member: MemberDocument;
  readonly ends: readonly EndPlan[];
  /** As its tube is called in a question: "the upper link". */
  readonly called: string;
  readonly usual_mm: number;
  /** What a member that has no plain body of its kind is drawn by at first. */
  body?(diameter_mm: number): ShapeDocument;
}

export interface KindPlan {
  readonly title: string;
  readonly about: string;
  readonly members: readonly MemberPlan[];
  /** What usually holds the damper's lower end. */
  readonly damperOn: string;
  /** The strut is the damper too: both share these two points. */
  readonly leg: { readonly top: string; readonly bottom: string } | null;
}

const ON_CHASSIS =
  "The centre of its bush or ball on the chassis, at ride height: dummy bolt through the bracket, measured to the middle between the lugs.";
const ON_HUB =
  "The centre of its ball or bush on the hub, at ride height: dummy bolt and cone, plumb bob to the floor for forward and out.";

function link(id: string, called: string, [inboard, outboard]: readonly [Vec3, Vec3], diameter_mm: number): MemberPlan {
  const stem = id.replace(/-/g, ".");
  return {
    member: { id, kind: "link", inboard: `${stem}.in`, outboard: `${stem}.out`, stock: "made" },
    called,
    usual_mm: diameter_mm,
    ends: [
      end(`${stem}.in`, `${called}, inboard end`, `Where is the inboard end of ${called}?`, ON_CHASSIS, inboard),
      end(`${stem}.out`, `${called}, outboard end`, `Where is the outboard end of ${called}?`, ON_HUB, outboard),
    ],
  };
}

function wishbone(
  id: string,
  called: string,
  [front, rear, outboard]: readonly [Vec3, Vec3, Vec3],
  diameter_mm: number,
): MemberPlan {
  return {
    member: {
      id,
      kind: "wishbone",
      front: `${id}.front`,
      rear: `${id}.rear`,
      outboard: `${id}.out`,
      stock: "made",
    },
    called,
    usual_mm: diameter_mm,
    ends: [
      end(`${id}.front`, `${called}, front pivot`, `Where is the front pivot of ${called}?`, ON_CHASSIS, front),
      end(`${id}.rear`, `${called}, rear pivot`, `Where is the rear pivot of ${called}?`, ON_CHASSIS, rear),
      end(`${id}.out`, `${called}, outboard end`, `Where is the outboard end of ${called}?`, ON_HUB, outboard),
    ],
  };
}

function end(point: string, name: string, ask: string, how: string, offset_mm: Vec3): EndPlan {
  return { point, name: name.replace(/^the /, ""), ask, how, offset_mm };
}

function tubes(pivots: readonly string[]) {
  return (diameter_mm: number): ShapeDocument => {
    const parts = pivots.map((from) => ({ kind: "capsule" as const, from, to: "wheel.centre", diameter_mm }));
    return parts.length === 1 ? parts[0]! : { kind: "group", parts };
  };
}

const LOWER_WISHBONE = wishbone(
  "lower",
  "the lower wishbone",
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
    title: "One-piece hub and arm with two links",
    about: "The donor's trailing arm carries the hub, on one front bush; an upper and a lower link hold it sideways.",
    damperOn: "carrier",
    leg: null,
    members: [
      {
        member: { id: "arm", kind: "ball", at: "arm.front", stock: "donor" },
        called: "the arm",
        usual_mm: 48,
        body: tubes(["arm.front"]),
        ends: [
          end(
            "arm.front",
            "the arm, front bush",
            "Where is the front bush of the arm?",
            "The centre of the bush that the arm swings on, at ride height. A millimetre sideways steers the wheel by 0.12°: take it by tape from three studs if you can.",
            [460, -150, -105],
          ),
        ],
      },
      link(
        "upper",
        "the upper link",
        [
          [60, -420, 110],
          [60, -90, 130],
        ],
        30,
      ),
      link(
        "lower",
        "the lower link",
        [
          [-40, -560, -110],
          [20, -85, -90],
        ],
        30,
      ),
    ],
  },
  wishbones: {
    title: "Two wishbones and a toe link",
    about: "Upper and lower wishbone carry the hub; a toe link steers it straight.",
    damperOn: "lower",
    leg: null,
    members: [
      wishbone(
        "upper",
        "the upper wishbone",
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
        "the toe link",
        [
          [115, -310, -60],
          [115, -50, -60],
        ],
        20,
      ),
    ],
  },
  "semi-trailing": {
    title: "Semi-trailing arm",
    about: "One arm with the hub, swinging on two bushes whose line runs slantwise across the car.",
    damperOn: "arm",
    leg: null,
    members: [
      {
        member: { id: "arm", kind: "hinge", front: "arm.outer", rear: "arm.inner", stock: "donor" },
        called: "the arm",
        usual_mm: 48,
        body: tubes(["arm.outer", "arm.inner"]),
        ends: [
          end(
            "arm.outer",
            "the arm, outer bush",
            "Where is the outer bush of the arm?",
            `${ON_CHASSIS} Ten millimetres up or down change the toe by a third of a degree over the travel.`,
            [380, -150, 5],
          ),
          end("arm.inner", "the arm, inner bush", "Where is the inner bush of the arm?", ON_CHASSIS, [300, -510, 5]),
        ],
      },
    ],
  },
  strut: {
    title: "Strut with a lower wishbone and a toe link",
    about: "The strut is damper and upper guide in one; a wishbone and a toe link hold the hub below.",
    damperOn: "carrier",
    leg: { top: "leg.top", bottom: "leg.bottom" },
    members: [
      {
        member: { id: "leg", kind: "strut", top: "leg.top", bottom: "leg.bottom", stock: "donor" },
        called: "the strut",
        usual_mm: 50,
        ends: [
          end(
            "leg.top",
            "the strut, top mount",
            "Where is the strut's top mount?",
            "The centre of the ball or rubber that the rod hangs in, below the tower's plate.",
            [-14, -190, 450],
          ),
          end(
            "leg.bottom",
            "the strut, lower end",
            "Where does the strut's middle line meet the hub?",
            "On the strut's own middle line, at the height of the clamp or the two bolts of the hub.",
            [-8, -146, 80],
          ),
        ],
      },
      LOWER_WISHBONE,
      link(
        "toe",
        "the toe link",
        [
          [-186, -348, -98],
          [-142, -68, -105],
        ],
        20,
      ),
    ],
  },
  "five-links": {
    title: "Five links",
    about: "Five separate links carry the hub: two above, two below and the toe link.",
    damperOn: "carrier",
    leg: null,
    members: [
      link(
        "upper-front",
        "the upper front link",
        [
          [30, -295, 120],
          [22, -88, 140],
        ],
        24,
      ),
      link(
        "upper-rear",
        "the upper rear link",
        [
          [-112, -295, 125],
          [-70, -92, 135],
        ],
        24,
      ),
      link(
        "lower-front",
        "the lower front link",
        [
          [56, -338, -113],
          [34, -66, -120],
        ],
        28,
      ),
      link(
        "lower-rear",
        "the lower rear link",
        [
          [-100, -342, -110],
          [-46, -66, -118],
        ],
        28,
      ),
      link(
        "toe",
        "the toe link",
        [
          [-186, -356, -94],
          [-142, -76, -100],
        ],
        20,
      ),
    ],
  },
};
