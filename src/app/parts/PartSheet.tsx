import { useEffect, useState } from "react";
import type { MadeDocument, SceneDocument } from "../../scene/document.ts";
import type { InputError } from "../../scene/error.ts";
import { isAsMade } from "../../scene/parts/follow.ts";
import { mirrorAcross, withMirror } from "../../scene/parts/mirror.ts";
import { changeMount } from "../../scene/parts/mount.ts";
import { ownShape, type Part } from "../../scene/parts/parts.ts";
import { scanOf } from "../../scene/parts/scan.ts";
import { pointResolver } from "../../scene/pointResolver.ts";
import { forgetNonsense, usePointsLook } from "../points/pointsStore.ts";
import { openScanAgain } from "../scans/scanActions.ts";
import { rideHeightPoses } from "../store/rideHeight.ts";
import { app, useApp } from "../store/useApp.ts";
import { withinText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { refusalText } from "../words/refusal.ts";
import { PartDialogs } from "./PartDialogs.tsx";
import { PartMenu } from "./PartMenu.tsx";
import { PartPicture } from "./PartPicture.tsx";
import { Picker } from "./Picker.tsx";
import { draftOf, forgetDraft, troubleText, tryShift, tryValues, usePartDraft } from "./partDraft.ts";
import { editParts } from "./partEdits.ts";
import { fieldsOf } from "./partFields.ts";
import { mountItems, mountName, mountSentence, partName } from "./partGroups.ts";
import { recipeText } from "./recipeText.ts";
import { SheetRows } from "./SheetRows.tsx";
import { ShiftRows } from "./ShiftRows.tsx";
import "../points/point.css";
import "./parts.css";

/** The part in hand: its sizes with a picture, what it hangs and rides on, where it stands, and what can be done with it. */
export function PartSheet({ part, document }: { part: Part; document: SceneDocument }) {
  const unit = useApp((state) => state.unit);
  const triedEdit = useApp((state) => state.triedEdit);
  const draft = usePartDraft();
  const [refused, setRefused] = useState<InputError | null>(null);
  const name = partName(part, document);
  const { values, trouble, shift_mm } = draftOf(draft, document, part.id);
  const fields = fieldsOf(part);
  const isTried = triedEdit?.part === part.id;
  const isBody = part.kind === "body";
  useKeepKeys();
  return (
    <section className="points-sheet" aria-label={name}>
      <div className="points-scroll point-body">
        <div className="point-title">
          <h2>{name}</h2>
          <PartMenu part={part} document={document} onRefused={setRefused} />
          <button type="button" className="button plain" onClick={() => app.getState().hold(null)}>
            {t("parts.allParts")}
          </button>
        </div>
        <p className="fine quiet">{aboutText(part, document)}</p>
        {refused && (
          <p className="point-error" role="alert">
            {troubleText(refused)}
          </p>
        )}
        {isBody && scanOf(document, part.id) && <ScanButton id={part.id} />}
        <div className="point-columns">
          <div>
            {part.made && values && (
              <PartPicture
                made={values as unknown as MadeDocument}
                document={triedEdit?.document ?? document}
                label={t("parts.picture", { name })}
                width={280}
                height={170}
              />
            )}
            {isBody && (
              <>
                <Picker
                  label={t("parts.ridesOn")}
                  items={mountItems(document)}
                  value={part.on}
                  onPick={(on) => setRefused(rideOn(part, on))}
                />
                <SidesChooser part={part} document={document} onRefused={setRefused} />
              </>
            )}
            {fields && values && (
              <SheetRows
                fields={fields}
                values={values}
                document={document}
                unit={unit}
                trouble={trouble}
                onChange={(next) => tryValues(part.id, next)}
              />
            )}
          </div>
          <div>{isBody && <ShiftRows unit={unit} shift_mm={shift_mm} onShift={(by) => tryShift(part.id, by)} />}</div>
        </div>
      </div>
      {isTried && <TriedLine words={triedEdit.stepName} />}
      <KeepFoot isTried={isTried} isTroubled={trouble !== null} />
      <PartDialogs part={part} document={document} name={name} />
    </section>
  );
}

/** A scan is changed where it was brought in, once its file is there. */
function ScanButton({ id }: { id: string }) {
  const hasFile = useApp(({ document, files }) => files.has((document && scanOf(document, id)?.file) ?? ""));
  return (
    <button type="button" className="button" disabled={!hasFile} onClick={() => void openScanAgain(id)}>
      {t("parts.openScan")}
    </button>
  );
}

/** What is tried, and why the car may not show it. */
export function TriedLine({ words }: { words: string }) {
  const error = useApp((state) => state.error);
  const refusal = useApp(refusalText);
  return (
    <div className="tried-line">
      <div className="tried-strip" role="status">
        <b>{words}</b>
        <em>{t("parts.notKept")}</em>
      </div>
      {error && (
        <p className="point-error" role="alert">
          {t("parts.shownAsKept", { refusal })}
        </p>
      )}
    </div>
  );
}

export function KeepFoot({ isTried, isTroubled }: { isTried: boolean; isTroubled: boolean }) {
  const hasError = useApp((state) => state.error !== null);
  const isNonsense = usePointsLook((look) => look.troubled.size > 0);
  return (
    <div className="points-foot">
      <button
        type="button"
        className="button"
        disabled={!isTried && !isTroubled && !isNonsense}
        aria-keyshortcuts="Escape"
        onClick={() => {
          forgetNonsense();
          forgetDraft();
          app.getState().putBack();
        }}
      >
        {t("parts.putBack")} <kbd className="key">{t("parts.putBackKey")}</kbd>
      </button>
      <button
        type="button"
        className="button go"
        disabled={!isTried || isTroubled || hasError || isNonsense}
        aria-keyshortcuts="Enter"
        onClick={() => app.getState().keepEdit()}
      >
        {t("parts.keep")}
      </button>
    </div>
  );
}

/** Enter keeps, Escape puts back, also from within a field. */
export function useKeepKeys(): void {
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      const target = event.target instanceof Element ? event.target : null;
      if (event.defaultPrevented || target?.closest('button, [role="dialog"], [role="menu"], [role="listbox"]')) return;
      const { triedEdit, error } = app.getState();
      if (event.key === "Enter" && triedEdit && !error && usePartDraft.getState().trouble === null) {
        app.getState().keepEdit();
      }
      if (event.key === "Escape" && target?.closest("input")) {
        forgetDraft();
        app.getState().putBack();
      }
    };
    window.addEventListener("keydown", press);
    return () => window.removeEventListener("keydown", press);
  }, []);
}

function aboutText(part: Part, document: SceneDocument): string {
  const shape = ownShape(document, part.id);
  const words = [mountSentence(part, document)];
  if (part.made) {
    words.push(t("parts.sentences.fromShelf", { recipe: recipeText(part.made.as, "name") }));
    if (shape && !isAsMade(shape, part.made, pointResolver(document).drawn)) {
      words.push(t("parts.sentences.changedByHand"));
    }
  } else if (scanOf(document, part.id)) words.push(t("parts.sentences.scan"));
  else if (part.kind === "body") words.push(t("parts.sentences.byHand"));
  else if (part.kind === "member") words.push(t("parts.sentences.member"));
  return words.join(" ");
}

function rideOn(part: Part, on: string): InputError | null {
  const { document } = app.getState();
  if (!document) return null;
  const name = withinText(partName(part, document));
  return editParts(t("parts.edit.ridesOn", { name, mount: mountName(on, document) }), (now) =>
    changeMount(now, part.id, on, rideHeightPoses(now)),
  );
}

interface SidesProps {
  readonly part: Part;
  readonly document: SceneDocument;
  onRefused(error: InputError | null): void;
}

/** For what stands on chassis or powertrain: on one side, or on both. */
function SidesChooser({ part, document, onRefused }: SidesProps) {
  if (part.on !== "chassis" && part.on !== "powertrain") {
    return <p className="fine quiet">{t("parts.sentences.onCorner")}</p>;
  }
  const name = withinText(partName(part, document));
  const both = document.bodies.find(({ id }) => id === part.id)?.mirror ?? false;
  const choose = (wanted: boolean) =>
    onRefused(
      editParts(t(`parts.edit.${wanted ? "bothSides" : "once"}`, { name }), (now) => withMirror(now, part.id, wanted)),
    );
  return (
    <div className="sides-row">
      <fieldset className="choices" aria-label={t("parts.sides.label")}>
        <button type="button" aria-pressed={!both} onClick={() => choose(false)}>
          {t("parts.sides.once")}
        </button>
        <button type="button" aria-pressed={both} onClick={() => choose(true)}>
          {t("parts.sides.both")}
        </button>
      </fieldset>
      <button
        type="button"
        className="button"
        onClick={() => onRefused(editParts(t("parts.edit.toOther", { name }), (now) => mirrorAcross(now, part.id)))}
      >
        {t("parts.sides.toOther")}
      </button>
    </div>
  );
}
