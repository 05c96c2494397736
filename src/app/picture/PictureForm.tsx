import { isToScale, VIEW_NAMES } from "../../fabrication/picture/view.ts";
import { usePrinting } from "../card/printing.ts";
import { askPicture } from "../files/fileRoom.ts";
import { type FileKind, fileNameOf, PICTURE_FILE } from "../files/saveFile.ts";
import { MakingLine } from "../paper/MakingLine.tsx";
import { useMaking } from "../paper/making.ts";
import type { PaperFormProps } from "../paper/PaperDialog.tsx";
import { usePaper } from "../paper/paperStore.ts";
import { SheetSetting } from "../paper/SheetSetting.tsx";
import { StandingChoice } from "../paper/StandingChoice.tsx";
import { Picker } from "../parts/Picker.tsx";
import { TextLine } from "../parts/TextLine.tsx";
import { usePointsLook } from "../points/pointsStore.ts";
import { datumOf } from "../points/usePointMove.ts";
import { Choices } from "../shell/Choices.tsx";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { nameOf } from "../words/names.ts";
import { LengthsField } from "./LengthsField.tsx";
import { PicturePreview } from "./PicturePreview.tsx";
import { pictureRequest } from "./pictureRequest.ts";
import { FINENESSES, LIES, NEAR_GAPS, SIDES, STANDS, usePictureLook } from "./pictureStore.ts";
import "./picture.css";

const SVG_FILE: FileKind = { description: t("picture.svgFile"), mime: "image/svg+xml", ending: ".svg" };
/** Scales of ISO 5455 that a corner is printed at. */
const RATIOS = [1, 2, 5, 10] as const;
const ALL = "";

/** The car to scale in one view, with dimensions and gaps, as a picture to print or to keep. */
export function PictureForm({ document }: PaperFormProps) {
  const look = usePictureLook();
  const scene = useApp((state) => state.scene);
  const bodies = useApp((state) => state.bodies);
  const making = useMaking();
  const request = useRequest(document);
  if (!scene || !request) return null;
  const set = usePictureLook.setState;
  const ids = [...new Set(bodies.map(({ id }) => id))];
  const save = (kind: FileKind, format: "png" | "svg"): void =>
    making.save(async () => {
      const { file } = await askPicture(request(format, false), app.getState().files).done;
      return {
        content: file,
        name: fileNameOf(`${document.title} ${t(`picture.views.${look.view}`)}`, kind.ending),
        kind,
      };
    });
  return (
    <>
      <PicturePreview request={request("png", true)} />
      <div className="picture-fields">
        <Picker
          label={t("picture.view")}
          items={VIEW_NAMES.map((value) => ({ value, label: t(`picture.views.${value}`) }))}
          value={look.view}
          onPick={(view) => set({ view: VIEW_NAMES.find((each) => each === view)! })}
        />
        <Picker
          label={t("picture.stand")}
          items={STANDS.map((value) => ({ value, label: t(`picture.stands.${value}`) }))}
          value={look.stand}
          onPick={(stand) => set({ stand: STANDS.find((each) => each === stand)! })}
        />
        <Picker
          label={t("picture.around")}
          items={[
            { value: ALL, label: t("picture.aroundAll") },
            ...ids.map((value) => ({ value, label: nameOf(value, scene) })),
          ]}
          value={look.around !== null && ids.includes(look.around) ? look.around : ALL}
          onPick={(around) => set({ around: around === ALL ? null : around })}
        />
        {isToScale(look.view) && (
          <Picker
            label={t("picture.scale")}
            items={[
              { value: ALL, label: t("picture.scaleFits") },
              ...RATIOS.map((ratio) => ({ value: String(ratio), label: t("picture.scaleOne", { ratio }) })),
            ]}
            value={look.ratio === null ? ALL : String(look.ratio)}
            onPick={(ratio) => set({ ratio: ratio === ALL ? null : Number(ratio) })}
          />
        )}
        <Picker
          label={t("picture.nearGaps")}
          items={NEAR_GAPS.map((value) => ({ value, label: t(`picture.gaps.${value}`) }))}
          value={look.nearGaps}
          onPick={(nearGaps) => set({ nearGaps: NEAR_GAPS.find((each) => each === nearGaps)! })}
        />
        <Picker
          label={t("picture.fineness")}
          items={FINENESSES.map((value) => ({ value, label: t(`picture.finenesses.${value}`) }))}
          value={look.fineness}
          onPick={(fineness) => set({ fineness: FINENESSES.find((each) => each === fineness)! })}
        />
      </div>
      {scene.sides.length > 1 && (
        <Choices
          label={t("picture.side")}
          options={SIDES.map((value) => ({ value, name: t(`picture.sides.${value}`) }))}
          value={look.side}
          onChoose={(side) => set({ side })}
        />
      )}
      <LengthsField document={document} />
      <div>
        {(document.measures ?? []).length > 0 && (
          <label className="check-line">
            <input
              type="checkbox"
              checked={look.hasMeasures}
              onChange={(event) => set({ hasMeasures: event.target.checked })}
            />
            <span>{t("picture.measures")}</span>
          </label>
        )}
        <label className="check-line">
          <input
            type="checkbox"
            checked={look.hasOutlinedWheels ?? (look.view === "left" || look.view === "right")}
            onChange={(event) => set({ hasOutlinedWheels: event.target.checked })}
          />
          <span>{t("picture.wheels")}</span>
        </label>
      </div>
      <TextLine label={t("picture.note")} value={look.note} onChange={(note) => set({ note })} />
      <StandingChoice />
      <SheetSetting hasDatum />
      <Choices
        label={t("picture.lies")}
        options={LIES.map((value) => ({ value, name: t(`picture.sheet.${value}`) }))}
        value={look.lies}
        onChoose={(lies) => set({ lies })}
      />
      <div className="dialog-buttons">
        <button type="button" className="button" disabled={making.busy} onClick={() => save(SVG_FILE, "svg")}>
          {t("picture.saveSvg")}
        </button>
        <button type="button" className="button go" disabled={making.busy} onClick={() => save(PICTURE_FILE, "png")}>
          {t("picture.savePng")}
        </button>
      </div>
      <MakingLine making={making} />
    </>
  );
}

/** What to ask of the worker as the form stands; null while there is no scene. */
function useRequest(document: PaperFormProps["document"]) {
  const look = usePictureLook();
  const paper = usePrinting((state) => state.paper);
  const scene = useApp((state) => state.scene);
  const datumId = usePointsLook((points) => points.datumId);
  // the sheet's words and the worst place are read when it is asked; these say when they have changed
  usePaper();
  useApp((state) => state.unit);
  useApp((state) => state.result);
  if (!scene) return null;
  const datum = datumOf(scene, datumId)?.id ?? null;
  return (format: "png" | "svg", isDraft: boolean) =>
    pictureRequest(document, scene, app.getState(), look, paper, datum, format, isDraft);
}
