import type { SceneDocument } from "../../../src/scene/document.ts";
import { isEntryRecord, pointResolver } from "../../../src/scene/pointResolver.ts";
import { type Answer, NO, type Question, YES } from "../../../src/scene/setup/question.ts";
import { answer, askedQuestions, beginSetup, standingOf } from "../../../src/scene/setup/setup.ts";
import type { CornerKind } from "../../../src/scene/setup/setupDocument.ts";

/** The sample scene that each kind of corner is asked for. */
export const FILE_OF: Readonly<Record<CornerKind, string>> = {
  "hub-and-arm": "1-",
  wishbones: "3-",
  "semi-trailing": "4-",
  strut: "5-",
  "five-links": "6-",
};

/** Lumps and frame are answered with measures of their own: the sample scenes draw theirs in other shapes. */
const ROUGH: Readonly<Record<string, Answer>> = {
  "block.there": YES,
  "block.at": [240, 200, 520],
  "block.length_mm": 262,
  "sump.there": YES,
  "sump.at": [230, 200, 420],
  "sump.depth_mm": 104,
  "gearbox.there": YES,
  "gearbox.at": [200, -180, 445],
  "differential.there": YES,
  "differential.at": [30, -20, 320],
  "upper-rail.there": YES,
  "upper-rail.a": [-250, 457, 540],
  "upper-rail.b": [540, 457, 540],
  "lower-rail.there": YES,
  "lower-rail.a": [-200, 350, 142],
  "cross-tube.there": YES,
  "cross-tube.a": [-250, 430, 540],
  "cross-tube.b": [-250, -430, 540],
  "links.bush": "bolted",
};

/** What the file says to the question, told from its records by hand; lumps apart. */
export function answerFrom(file: SceneDocument, question: Question): Answer {
  const { id } = question;
  const place = (name: string): Answer => pointResolver(file).drawn(name, name);
  if (question.kind === "place" && question.point !== null && Object.hasOwn(file.points, question.point)) {
    return place(question.point);
  }
  const { wheel, travel, damper, antiRollBar, driveshaft, powertrain, clearances } = file;
  const poses = powertrain?.poses ?? [];
  const told: Readonly<Record<string, Answer | undefined>> = {
    title: file.title,
    sides: file.sides,
    "wheel.tyre": wheel.tyre,
    "travel.bump_mm": travel.bump_mm,
    "travel.droop_mm": travel.droop_mm,
    "rock.there": YES,
    "engine.rock": poses[0]!.about as Answer,
    "rock.pulling_deg": poses[0]!.angle_deg,
    "rock.overrun_deg": poses[1]!.angle_deg,
    "damper.there": YES,
    "damper.on": damper!.on,
    "spring.there": YES,
    "stop.there": YES,
    "bar.there": antiRollBar ? YES : NO,
    "bar.on": antiRollBar?.on,
    "bar.diameter_mm": antiRollBar?.diameter_mm,
    "shaft.there": YES,
    "shaft.right": "own",
    "shaft.right.inner": driveshaft!.right!.inner as Answer,
    "shaft.right.shortest_mm": driveshaft!.right!.shortest_mm,
    "shaft.right.longest_mm": driveshaft!.right!.longest_mm,
    "gaps.default": clearances.default_mm,
    "gaps.tyre": 15,
    "gaps.exhaust": 25,
  };
  const [record, key] = id.split(".") as [string, string];
  const records: Readonly<Record<string, object | undefined>> = { wheel, damper, shaft: driveshaft };
  const tube = file.members.find((member) => id === `${member.id}.tube`);
  const found =
    told[id] ??
    (records[record] as Record<string, Answer> | undefined)?.[key] ??
    (tube && "diameter_mm" in tube ? tube.diameter_mm : undefined) ??
    ROUGH[id];
  return found ?? question.usual(file);
}

/** Every question of the kind answered as the file says, one by one as they come. */
export function answeredAs(kind: CornerKind, file: SceneDocument): SceneDocument {
  let document = beginSetup(kind);
  for (let i = 0; i < 300; i++) {
    const next = askedQuestions(document).find((question) => standingOf(document, question) === null);
    if (!next) return document;
    document = answer(document, next.id, next.id in ROUGH ? ROUGH[next.id]! : answerFrom(file, next));
  }
  throw new Error("the questions do not end");
}

/** Places of all named points, without what is noted of them. */
export function placesOf(document: SceneDocument): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(document.points).map(([name, entry]) => [name, isEntryRecord(entry) ? entry.at : entry]),
  );
}
