import { distance, type Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../document.ts";
import { ownPoints, removePart } from "../parts/remove.ts";
import { pointResolver } from "../pointResolver.ts";
import { lengthFault, type Mend } from "./faults.ts";
import type { ChoiceQuestion, LengthQuestion, Picture, Section } from "./question.ts";

/** What the questions about damper, anti-roll bar and driveshaft share. */
export type UnitKey = "damper" | "antiRollBar" | "driveshaft";
type UnitRecord<Unit extends UnitKey> = NonNullable<SceneDocument[Unit]>;

/** Not read through: an assumed length beside it may have to follow first. */
export function withUnit<Unit extends UnitKey>(
  document: SceneDocument,
  unit: Unit,
  record: SceneDocument[Unit],
): SceneDocument {
  return { ...document, [unit]: record };
}

/** Distance between two drawn points, mm. */
export function drawnLength(document: SceneDocument, from: string, to: string): number {
  const { drawn } = pointResolver(document);
  const at = (name: string): Vec3 => drawn(name, `points.${name}`);
  return distance(at(from), at(to));
}

export function withoutUnit(document: SceneDocument, id: "damper" | "bar" | "driveshaft"): SceneDocument {
  return removePart(document, id, { riders: true, points: ownPoints(document, [id]) });
}

interface UnitLength<Unit extends UnitKey> {
  readonly unit: Unit;
  readonly id: string;
  readonly section: Section;
  readonly picture: Picture;
  readonly most_mm: number;
  readonly mend: Mend;
  usual(document: SceneDocument): number;
  isAsked?(document: SceneDocument): boolean;
  get(record: UnitRecord<Unit>): number | undefined;
  set(record: UnitRecord<Unit>, value: number): UnitRecord<Unit>;
}

export function unitLength<Unit extends UnitKey>(plan: UnitLength<Unit>): LengthQuestion {
  const recordOf = (document: SceneDocument) => document[plan.unit] as UnitRecord<Unit> | undefined;
  const { id, section, picture, usual, isAsked } = plan;
  return {
    kind: "length",
    id,
    section,
    picture,
    usual,
    isNeeded: false,
    isAsked: (document) => recordOf(document) !== undefined && (isAsked?.(document) ?? true),
    read(document) {
      const record = recordOf(document);
      return (record && plan.get(record)) ?? null;
    },
    put(document, value) {
      const record = recordOf(document);
      return record ? withUnit(document, plan.unit, plan.set(record, value)) : document;
    },
    fault: lengthFault(1, plan.most_mm, plan.mend),
  };
}

const HUB = "carrier";

/** What a damper or drop link can sit on. */
export function holderQuestion(unit: "damper" | "antiRollBar", id: string, usual: string): ChoiceQuestion {
  return {
    kind: "choice",
    id,
    section: "damper",
    picture: { of: "corner" },
    isNeeded: false,
    isAsked: (document) => document[unit] !== undefined,
    options: ({ members }) => [HUB, ...members.map((member) => member.id)],
    read: (document) => document[unit]?.on ?? null,
    usual: () => usual,
    put(document, on) {
      const record = document[unit];
      return record ? withUnit(document, unit, { ...record, on } as never) : document;
    },
    fault: () => null,
  };
}
