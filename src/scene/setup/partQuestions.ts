import { add, type Vec3 } from "../../maths/vec3.ts";
import type { MadeDocument, SceneDocument } from "../document.ts";
import { addPart, withSizes } from "../parts/add.ts";
import { ownPoints, removePart } from "../parts/remove.ts";
import { usualMade } from "../recipes/makeShape.ts";
import { lengthFault, wheelCentre } from "./faults.ts";
import { pointQuestion, withPlace } from "./places.ts";
import { always, type ChoiceQuestion, NO, type Picture, type Question, type Section, YES } from "./question.ts";

interface PartPlace {
  readonly key: string;
  /** From the wheel's centre, mm. */
  readonly offset_mm: Vec3;
}

interface PartSize {
  readonly key: string;
  readonly mark: Extract<Picture, { of: "box" }>["mark"];
  readonly usual_mm: number;
  readonly most_mm?: number;
}

export interface PartPlan {
  readonly id: string;
  readonly section: Section;
  readonly on: "chassis" | "powertrain";
  readonly recipe: string;
  readonly preset?: Readonly<Record<string, unknown>>;
  readonly mirror?: boolean;
  readonly places: readonly PartPlace[];
  readonly sizes: readonly PartSize[];
  /** Sizes that follow from those that are asked. */
  derive?(made: MadeDocument): MadeDocument;
}

/** Whether a ready part is there, and then its places and sizes one by one. */
export function partQuestions(plan: PartPlan): readonly Question[] {
  const { id, section } = plan;
  const bodyOf = (document: SceneDocument) => document.bodies.find((body) => body.id === id);
  const madeOf = (document: SceneDocument) => {
    const made = bodyOf(document)?.made;
    return made?.as === plan.recipe ? made : null;
  };
  const isThere = (document: SceneDocument) => madeOf(document) !== null;
  const derived = (made: MadeDocument) => plan.derive?.(made) ?? made;
  return [
    existence({
      id,
      section,
      isThere: (document) => bodyOf(document) !== undefined,
      add(document) {
        const points = Object.fromEntries(
          plan.places.map(({ key, offset_mm }) => [`${id}.${key}`, add(wheelCentre(document), offset_mm)]),
        );
        const made = derived({
          ...usualMade(plan.recipe),
          ...plan.preset,
          ...Object.fromEntries(plan.places.map(({ key }) => [key, `${id}.${key}`])),
          ...Object.fromEntries(plan.sizes.map(({ key, usual_mm }) => [key, usual_mm])),
        } as MadeDocument);
        const grown = addPart(document, { id, on: plan.on, made, points, mirror: plan.mirror });
        return Object.entries(points).reduce((now, [name, at]) => withPlace(now, name, at, "assumed"), grown);
      },
      remove: (document) => removePart(document, id, { riders: true, points: ownPoints(document, [id]) }),
    }),
    ...plan.places.map((place) =>
      pointQuestion({
        point: `${id}.${place.key}`,
        section,
        offset_mm: place.offset_mm,
        isAsked: isThere,
      }),
    ),
    ...plan.sizes.map(
      (size): Question => ({
        kind: "length",
        id: `${id}.${size.key}`,
        section,
        picture: { of: "box", mark: size.mark },
        isNeeded: false,
        isAsked: isThere,
        read: (document) => (madeOf(document)?.[size.key] as number | undefined) ?? null,
        usual: () => size.usual_mm,
        put(document, value) {
          const made = madeOf(document);
          return made ? withSizes(document, id, derived({ ...made, [size.key]: value })) : document;
        },
        fault: lengthFault(1, size.most_mm ?? 2000, "overAll"),
      }),
    ),
  ];
}

interface Existence {
  readonly id: string;
  readonly section: Section;
  readonly of?: ChoiceQuestion["of"];
  readonly usual?: typeof YES;
  isAsked?(document: SceneDocument): boolean;
  isThere(document: SceneDocument): boolean;
  add(document: SceneDocument): SceneDocument;
  remove(document: SceneDocument): SceneDocument;
}

/** Whether a thing is to be placed; whoever skips leaves it out. */
export function existence(plan: Existence): ChoiceQuestion {
  const { id, section, of, usual = NO, isThere, isAsked = always } = plan;
  return {
    kind: "choice",
    id: `${id}.there`,
    section,
    ...(of ? { of } : {}),
    picture: { of: "corner" },
    isNeeded: false,
    isAsked,
    options: () => [YES, NO],
    read: (document) => (isThere(document) ? YES : NO),
    usual: () => usual,
    put(document, answer) {
      if ((answer === YES) === isThere(document)) return document;
      return answer === YES ? plan.add(document) : plan.remove(document);
    },
    fault: () => null,
  };
}
