import { canonicalJson, fingerprint } from "../../buildlog/hash.ts";
import type { SheetFonts } from "../../fabrication/paper/fonts.ts";
import type { SheetFacts } from "../../fabrication/paper/frame.ts";
import { revisionText } from "../../fabrication/paper/revision.ts";
import type { SheetSetting } from "../../fabrication/paper/sheet.ts";
import type { FrameWords, Standing } from "../../fabrication/paper/words.ts";
import type { SceneDocument } from "../../scene/document.ts";
import type { Datum } from "../../scene/scene.ts";
import { usePrinting } from "../card/printing.ts";
import { datumName } from "../points/DatumChooser.tsx";
import { usePointsLook } from "../points/pointsStore.ts";
import { datumOf } from "../points/usePointMove.ts";
import { app } from "../store/useApp.ts";
import { language, t } from "../text/text.ts";
import { BOLD, REGULAR } from "./fontFiles.ts";
import { usePaper } from "./paperStore.ts";

/** What the frame of a sheet says of the scene as it stands now; `title` is the sheet's own. */
export function sheetFacts(
  document: SceneDocument,
  title: string,
  more: {
    readonly standing?: Standing;
    readonly units?: string;
    readonly cautions?: readonly string[];
    /** Nothing on it is read from the chosen datum. */
    readonly fromCar?: boolean;
  } = {},
): SheetFacts {
  const datum = more.fromCar ? null : chosenDatum();
  return {
    title,
    subject: document.title,
    date: new Intl.DateTimeFormat(language(), { dateStyle: "long" }).format(new Date()),
    revision: revisionText(usePaper.getState().revision, fingerprint(canonicalJson(document))),
    units: more.units ?? t("paper.units.mm"),
    standing: more.standing ?? "drawn",
    datum: datum === null ? t("points.datum.car") : datumName(datum.id),
    cautions: more.cautions ?? [t("paper.cautions.shape"), t("paper.cautions.stands")],
  };
}

/** The datum that lengths are read from; null: the car's own. */
export function chosenDatum(): Datum | null {
  const { scene } = app.getState();
  return scene ? datumOf(scene, usePointsLook.getState().datumId) : null;
}

export type OnPages = NonNullable<SheetSetting["onPages"]>;

/** Paper, fonts and words of a sheet in the language that is shown; `onPages` takes its pages to be looked at. */
export async function sheetSetting(onPages?: OnPages): Promise<SheetSetting> {
  return { paper: usePrinting.getState().paper, fonts: await sheetFonts(), words: frameWords(), onPages };
}

function frameWords(): FrameWords {
  return {
    date: t("paper.frame.date"),
    revision: t("paper.frame.revision"),
    units: t("paper.frame.units"),
    state: t("paper.frame.state"),
    datum: t("paper.frame.datum"),
    standing: { drawn: t("paper.frame.drawn"), built: t("paper.frame.built") },
    page: (page, pages) => t("paper.frame.page", { page, pages }),
  };
}

let kept: Promise<SheetFonts> | null = null;

/** Rejects where they cannot be fetched; asked again the next time. */
async function sheetFonts(): Promise<SheetFonts> {
  kept ??= Promise.all([REGULAR, BOLD].map((addresses) => Promise.all(addresses.map(bytesOf)))).then(
    ([regular, bold]) => ({ regular: regular!, bold: bold! }),
  );
  try {
    return await kept;
  } catch (error) {
    kept = null;
    throw error;
  }
}

async function bytesOf(address: string): Promise<Uint8Array> {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(t("paper.noFont"));
  return new Uint8Array(await answer.arrayBuffer());
}
