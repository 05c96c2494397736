import type { Looks, TemplateWords } from "../../fabrication/templates/words.ts";
import { t } from "../text/text.ts";

const LOOKS: readonly Looks[] = ["forward", "back", "out", "in", "left", "right", "up", "down"];

function byWay(text: (way: Looks) => string): Record<Looks, string> {
  return Object.fromEntries(LOOKS.map((way) => [way, text(way)])) as Record<Looks, string>;
}

/** What templates say, in the language that is shown. */
export function templateWords(): TemplateWords {
  return {
    plate: ({ id, count, thickness }) => t("templates.sheet.plate", { id, pieces: count, thickness }),
    plateEachSide: ({ id, count, thickness }) => t("templates.sheet.plateEachSide", { id, pieces: count, thickness }),
    face: byWay((way) => t(`templates.sheet.face.${way}`)),
    fromInside: t("templates.sheet.fromInside"),
    rightAlike: t("templates.sheet.rightAlike"),
    turnOver: t("templates.sheet.turnOver"),
    holes: (list) => t("templates.sheet.holes", { list }),
    hole: (values) => t("templates.sheet.hole", values),
    coarse: (flats) => t("templates.sheet.coarse", { flats }),
    fold: {
      up: (values) => t("templates.sheet.foldUp", values),
      down: (values) => t("templates.sheet.foldDown", values),
    },
    kFactor: (kFactor) => t("templates.sheet.kFactor", { kFactor }),
    baseDiffers: (values) => t("templates.sheet.baseDiffers", values),
    warning: (text) => t("templates.sheet.warning", { text }),
    rules: {
      "inside-radius": (values) => t("templates.sheet.rules.insideRadius", values),
      "hole-to-fold": (values) => t("templates.sheet.rules.holeToFold", values),
      flange: (values) => t("templates.sheet.rules.flange", values),
      "hole-size": (values) => t("templates.sheet.rules.holeSize", values),
      "hole-to-edge": (values) => t("templates.sheet.rules.holeToEdge", values),
      "hole-pitch": (values) => t("templates.sheet.rules.holePitch", values),
    },
    up: t("templates.sheet.ways.up"),
    forward: t("templates.sheet.ways.forward"),
    wrap: (values) => t("templates.sheet.wrap", values),
    wrapWithWall: (values) => t("templates.sheet.wrapWithWall", values),
    wrapName: {
      first: (tube) => t("templates.sheet.firstEnd", { tube }),
      last: (tube) => t("templates.sheet.lastEnd", { tube }),
    },
    wrapSide: {
      left: (name) => t("templates.sheet.leftSide", { name }),
      right: (name) => t("templates.sheet.rightSide", { name }),
    },
    servesBoth: t("templates.sheet.servesBoth"),
    fitted: (values) => t("templates.sheet.fitted", values),
    howToWrap: { top: t("templates.sheet.wrapByTop"), front: t("templates.sheet.wrapByFront") },
    edge: (short) => t("templates.sheet.edge", { short }),
    edgesApart: (apart) => t("templates.sheet.edgesApart", { apart }),
    wallNotTold: t("templates.sheet.wallNotTold"),
    wholeWall: t("templates.sheet.wholeWall"),
    wrapWarnings: { passes: t("templates.sheet.passes"), overhangs: t("templates.sheet.overhangs") },
    lines: {
      ...byWay((way) => t(`templates.sheet.ways.${way}`)),
      top: t("templates.sheet.lineTop"),
      front: t("templates.sheet.lineFront"),
    },
    printAsIs: t("templates.sheet.printAsIs"),
    corrected: (values) => t("templates.sheet.corrected", values),
    tiles: (values) => t("templates.sheet.tiles", values),
    tileOf: (values) => t("templates.sheet.tileOf", values),
    notToScale: t("templates.sheet.notToScale"),
  };
}
