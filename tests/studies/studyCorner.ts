import type { SceneDocument } from "../../src/scene/document.ts";
import type { PlaceQuestion } from "../../src/studies/places/placeStudy.ts";
import { storyCorner } from "../check/storyCorner.ts";

/** The stories' corner without the damper that ends before its travel does, which would refuse every place. */
export function studyCorner(change: Partial<SceneDocument> = {}): SceneDocument {
  const { damper: _damper, ...corner } = storyCorner({ tessellation_mm: 0.2 });
  return { ...corner, ...change };
}

/** The same on both sides with brackets that follow the upper link's pivot, a rail that does not, and a link of several pieces. */
export function bracketCorner(): SceneDocument {
  const corner = storyCorner({ sides: "both", tessellation_mm: 0.3 });
  const at = (from: string, by: readonly [number, number, number]) => ({ from, by });
  return {
    ...corner,
    members: corner.members.map((member) =>
      member.id === "upper"
        ? {
            ...member,
            body: {
              kind: "group",
              parts: [
                {
                  kind: "cylinder",
                  from: at("upper.in", [0, 12, 1]),
                  to: at("upper.out", [0, -30, 0]),
                  diameter_mm: 28,
                },
                {
                  kind: "cylinder",
                  from: at("upper.in", [-15, 0, 0]),
                  to: at("upper.in", [15, 0, 0]),
                  diameter_mm: 36,
                },
                { kind: "sphere", at: "upper.out", diameter_mm: 34 },
                {
                  kind: "hull",
                  spheres: [
                    { at: at("upper.in", [0, 20, 0]), diameter_mm: 34 },
                    { at: [-20, 480, 430], diameter_mm: 30 },
                  ],
                },
              ],
            },
          }
        : member,
    ),
    bodies: [
      ...corner.bodies,
      {
        id: "hanger",
        on: "chassis",
        mirror: true,
        shape: { kind: "box", size_mm: [8, 60, 50], at: at("upper.in", [22, 0, -5]) },
      },
      { id: "rail", on: "chassis", mirror: true, shape: { kind: "box", size_mm: [400, 30, 30], at: [0, 350, 402] } },
      {
        id: "brace",
        on: "chassis",
        shape: { kind: "capsule", from: at("upper.in", [-30, -20, -5]), to: [-180, 250, 480], diameter_mm: 24 },
      },
    ],
    clearances: {
      default_mm: 10,
      jointRadius_mm: 40,
      accept: [
        { a: "hanger", b: "upper", why: "the bracket holds the link" },
        { a: "damper-upper", b: "upper", why: "the damper of this corner stands in the link's way" },
        { a: "damper-lower", b: "upper", why: "the damper of this corner stands in the link's way" },
      ],
    },
  };
}

export function question(document: SceneDocument, change: Partial<PlaceQuestion> = {}): PlaceQuestion {
  return {
    document,
    meshFiles: new Map(),
    points: ["upper.in"],
    fit: "cut",
    limits: {},
    leaveOut: [],
    travelStep_mm: 10,
    marginUpTo_mm: 20,
    ...change,
  };
}
