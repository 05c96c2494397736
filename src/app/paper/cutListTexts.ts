import type { CutListWords } from "../../fabrication/sheets/cutListWords.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { jointNames } from "../../scene/jointNames.ts";
import { partText } from "../loads/partNames.ts";
import { t } from "../text/text.ts";
import { nameOf } from "../words/names.ts";

/** The cut list's words in the language that is shown, with parts and joints by the names that the page has for them. */
export function cutListWords(document: SceneDocument): CutListWords {
  const at = (joint: string): string => partText(joint, document);
  const named = (part: string): string => nameOf(part, document);
  return {
    tubes: t("sheets.cut.tubes"),
    number: t("sheets.cut.number"),
    part: t("sheets.cut.part"),
    count: t("sheets.cut.count"),
    size: t("sheets.cut.size"),
    eyeToEye: t("sheets.cut.eyeToEye"),
    cut: t("sheets.cut.cut"),
    saw: t("sheets.cut.saw"),
    mass: t("sheets.cut.mass"),
    ends: t("sheets.cut.ends"),
    what: {
      link: named,
      "front leg": (part) => t("sheets.cut.frontLeg", { part: named(part) }),
      "rear leg": (part) => t("sheets.cut.rearLeg", { part: named(part) }),
      "drop link": () => t("sheets.cut.dropLink"),
      frame: named,
    },
    sizeUnknown: t("sheets.cut.sizeUnknown"),
    wallUnknown: (size) => t("sheets.cut.wallUnknown", { size }),
    notTold: t("sheets.cut.notTold"),
    end: {
      rodEnd: (joint, thread, engaged, reach) =>
        t("sheets.cut.end.rodEnd", { joint: at(joint), thread, engaged, reach }),
      sleeve: (joint, angle, short) => t("sheets.cut.end.sleeve", { joint: at(joint), angle, short }),
      coped: (part, angle, short) => t("sheets.cut.end.coped", { part: named(part), angle, short }),
      mitred: (angle) => t("sheets.cut.end.mitred", { angle }),
      square: t("sheets.cut.end.square"),
      squareShort: (joint, short) => t("sheets.cut.end.squareShort", { joint: at(joint), short }),
      unknown: (joint) => t("sheets.cut.end.unknown", { joint: at(joint) }),
    },
    mitre: (length) => t("sheets.cut.mitre", { length }),
    adjust: (longer, shorter) => t("sheets.cut.adjust", { longer, shorter }),
    bends: (number, radius, angles) => t("sheets.cut.bends", { number, radius, angles }),
    stock: t("sheets.cut.stock"),
    material: t("sheets.cut.material"),
    pieces: t("sheets.cut.pieces"),
    together: t("sheets.cut.together"),
    bars: (length) => t("sheets.cut.bars", { length }),
    barCount: (bars, tooLong) => (tooLong > 0 ? t("sheets.cut.barsTooLong", { bars, tooLong }) : String(bars)),
    parts: t("sheets.cut.parts"),
    counted: {
      bolt: t("sheets.cut.counted.bolt"),
      "rod end": t("sheets.cut.counted.rodEnd"),
      "ball joint": t("sheets.cut.counted.ballJoint"),
      bush: t("sheets.cut.counted.bush"),
      "lock nut": t("sheets.cut.counted.lockNut"),
      adapter: t("sheets.cut.counted.adapter"),
      sleeve: t("sheets.cut.counted.sleeve"),
      plate: t("sheets.cut.counted.plate"),
    },
    at: t("sheets.cut.at"),
    place: (name) => (jointNames(document).includes(name) ? at(name) : named(name)),
    missing: t("sheets.cut.missing"),
    fault: {
      end: (joint) => t("sheets.cut.fault.end", { joint: at(joint) }),
      "thread-short": (joint) => t("sheets.cut.fault.threadShort", { joint: at(joint) }),
      "thread-set": (joint) => t("sheets.cut.fault.threadSet", { joint: at(joint) }),
      size: (part) => t("sheets.cut.fault.size", { part: named(part) }),
      "no-tube": (part) => t("sheets.cut.fault.noTube", { part: named(part) }),
      "no-room": (part) => t("sheets.cut.fault.noRoom", { part: named(part) }),
    },
    total: (mass) => t("sheets.cut.total", { mass }),
    notes: (saw, trim) => [
      t("sheets.cut.noteLength", { saw, trim }),
      t("sheets.cut.noteThread"),
      t("sheets.cut.noteEnds"),
    ],
  };
}
