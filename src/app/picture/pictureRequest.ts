import plain from "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-400-normal.woff2?url";
import bold from "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-700-normal.woff2?url";
import plainMore from "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-400-normal.woff2?url";
import boldMore from "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-700-normal.woff2?url";
import program from "@resvg/resvg-wasm/index_bg.wasm?url";
import { PAPER_mm, type Paper } from "../../fabrication/paper/sizes.ts";
import { MOST_px, type PictureAsked, type PictureState } from "../../fabrication/picture/picture.ts";
import type { PictureWords } from "../../fabrication/picture/words.ts";
import { drawnPart } from "../../scene/aside.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { MM_PER_INCH } from "../../scene/length.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import type { PictureRequest, ToolAddresses } from "../../work/pictureRoom.ts";
import { usePaper } from "../paper/paperStore.ts";
import { sheetFacts } from "../paper/sheetFacts.ts";
import type { App } from "../store/actions.ts";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { engineText, nameOf } from "../words/names.ts";
import { travelText } from "../words/travel.ts";
import type { PictureLook } from "./pictureStore.ts";

/** Dots to an inch: on the page, and on paper. */
const DRAFT_dpi = 96;
const DPI = { draft: 150, print: 300 } as const;

/** What the form asks for, of the scene as it is kept. `isDraft`: for the page, with fewer dots. */
export function pictureRequest(
  document: SceneDocument,
  scene: Scene,
  state: Pick<App, "travel_mm" | "pose" | "share" | "result" | "unit" | "bodies">,
  look: PictureLook,
  paper: Paper,
  datumId: string | null,
  format: "png" | "svg",
  isDraft: boolean,
): PictureRequest {
  const stands = standOf(scene, state, look);
  const { width, height } = PAPER_mm[paper];
  const [across_mm, down_mm] = look.lies === "landscape" ? [height, width] : [width, height];
  const dpi = isDraft ? DRAFT_dpi : dpiOf(look, Math.max(across_mm, down_mm));
  const isSideOn = look.view === "left" || look.view === "right";
  const asked: PictureAsked = {
    view: look.view,
    state: stands,
    width_px: Math.floor((across_mm / MM_PER_INCH) * dpi),
    height_px: Math.floor((down_mm / MM_PER_INCH) * dpi),
    dpi,
    ratio: look.view === "corner" ? null : look.ratio,
    sides: look.side === "both" ? scene.sides : [look.side],
    outlined: (look.hasOutlinedWheels ?? isSideOn) ? ["tyre", "rim"] : [],
    without: [],
    around: look.around === null ? [] : [look.around],
    dimensions: {
      lengths: look.lengths.map(({ from, to, along }) => {
        const side: Side = look.side === "right" ? "right" : scene.sides[0]!;
        return { from: { point: from, side }, to: { point: to, side }, along };
      }),
      gaps: [],
      nearGaps: look.nearGaps,
      measures: look.hasMeasures ? (document.measures ?? []).filter(({ hidden }) => !hidden).map(({ id }) => id) : [],
    },
    datumId,
  };
  const words = wordsOf(document, scene, state, asked, look, isDraft ? dpiOf(look, Math.max(across_mm, down_mm)) : dpi);
  // what a check does not hang on is told beside: the worker then has all that it made for the check
  return { document: drawnPart(document), measures: document.measures ?? [], asked, words, format, tools: TOOLS };
}

function address(path: string): string {
  return new URL(path, globalThis.location.href).href;
}

const TOOLS: ToolAddresses = { program: address(program), fonts: [plain, bold, plainMore, boldMore].map(address) };

function dpiOf({ fineness }: PictureLook, long_mm: number): number {
  return fineness === "finest" ? Math.floor(MOST_px / (long_mm / MM_PER_INCH)) : DPI[fineness];
}

/** Where the wheels and the engine stand in the picture. */
export function standOf(
  { travel, sides }: Scene,
  { travel_mm, pose, share, result }: Pick<App, "travel_mm" | "pose" | "share" | "result">,
  { stand }: Pick<PictureLook, "stand">,
): PictureState {
  const level = (mm: number) => Object.fromEntries(sides.map((side) => [side, mm]));
  switch (stand) {
    case "shown":
      return { travel_mm: Object.fromEntries(sides.map((side) => [side, travel_mm[side]])), pose, share: share ?? 1 };
    case "ride":
      return { travel_mm: level(0), pose: "rest", share: 1 };
    case "bump":
      return { travel_mm: level(travel.bump_mm), pose, share: share ?? 1 };
    case "droop":
      return { travel_mm: level(-travel.droop_mm), pose, share: share ?? 1 };
    case "worst": {
      const worst = result?.pairs.find(({ verdict }) => verdict !== "accepted");
      if (!worst) return { travel_mm: level(0), pose: "rest", share: 1 };
      return { travel_mm: level(worst.at.travel_mm), pose: worst.at.pose, share: worst.at.share ?? 1 };
    }
  }
}

function wordsOf(
  document: SceneDocument,
  scene: Scene,
  { unit, bodies }: Pick<App, "unit" | "bodies">,
  { view, state }: PictureAsked,
  { note }: PictureLook,
  dpi: number,
): PictureWords {
  const { standing } = usePaper.getState();
  const { date, revision, datum, cautions } = sheetFacts(document, document.title, { standing });
  return {
    title: document.title,
    note: note.trim() === "" ? null : note.trim(),
    date,
    standing: t("picture.standing", { standing: t(`paper.frame.${standing}`), revision }),
    view: t(`picture.views.${view}`),
    state: stateText(state, unit),
    unit,
    units: t("picture.units", { unit: t(`paper.units.${unit}`) }),
    datum: t("picture.datum", { datum }),
    scale: t("picture.scaleLine", { ratio: "{{ratio}}", dpi: String(dpi) }),
    notToScale: t("picture.notToScale"),
    trueLength: t("picture.trueLength", { length: "{{length}}" }),
    apart: t("picture.apart", { gap: "{{gap}}", wanted: "{{wanted}}" }),
    overlap: t("picture.overlap", { gap: "{{gap}}", wanted: "{{wanted}}" }),
    tone: {
      chassis: t("picture.tones.chassis"),
      powertrain: t("picture.tones.powertrain"),
      hub: t("picture.tones.hub"),
      arms: t("picture.tones.arms"),
      rubber: t("picture.tones.rubber"),
    },
    clash: t("picture.clash"),
    tight: t("picture.tight"),
    outlined: t("picture.outlined"),
    hidden: t("picture.hidden"),
    parts: Object.fromEntries(bodies.map(({ id }) => [id, nameOf(id, scene)])),
    cautions,
  };
}

function stateText({ travel_mm, pose, share }: PictureState, unit: Unit): string {
  const { left, right } = travel_mm;
  const only = left ?? right ?? 0;
  const isLevel = left === undefined || right === undefined || Math.abs(left - right) < 0.05;
  const travel = isLevel
    ? travelText(only, unit)
    : t("card.unevenTravel", { left: travelText(left, unit), right: travelText(right, unit) });
  return t("card.state", { travel, engine: engineText(pose, share) });
}
