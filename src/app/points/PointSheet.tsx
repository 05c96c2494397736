import { useEffect, useId } from "react";
import { isShownChecked } from "../store/isShownChecked.ts";
import { app, useApp } from "../store/useApp.ts";
import { listText, withinText } from "../text/formats.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { refusalText } from "../words/refusal.ts";
import { DatumChooser, datumName } from "./DatumChooser.tsx";
import { LengthField } from "./LengthField.tsx";
import { MeaningChooser } from "./MeaningChooser.tsx";
import { MoveEffects } from "./MoveEffects.tsx";
import { moveWords } from "./moveWords.ts";
import type { PointInfo } from "./pointInfo.ts";
import { pointSums } from "./pointSums.ts";
import { forgetNonsense, usePointsLook } from "./pointsStore.ts";
import { TriedElsewhere } from "./TriedElsewhere.tsx";
import { TypedChooser } from "./TypedChooser.tsx";
import { TapeDialog } from "./tape/TapeDialog.tsx";
import { placeByTape } from "./tape/tapeStore.ts";
import { DIRECTIONS, datumOf, keepTried, readPlace, tryCoordinate } from "./usePointMove.ts";
import "./point.css";

/** The held point: where it is, where it might go, and what that would do. */
export function PointSheet({ info }: { info: PointInfo }) {
  const unit = useApp((state) => state.unit);
  const scene = useApp((state) => state.scene);
  const tried = useApp((state) => state.tried);
  const error = useApp((state) => state.error);
  const refusal = useApp(refusalText);
  const troubled = usePointsLook((look) => look.troubled.size > 0);
  const isChecked = useApp(isShownChecked);
  const uncheckedId = useId();
  useEnterToKeep(info);
  const datumId = usePointsLook((look) => look.datumId);
  const datum = datumOf(scene, datumId);
  const mine = tried?.point === info.name ? tried : null;
  const unchecked = mine !== null && error === null && !isChecked;
  const elsewhere = tried !== null && mine === null;
  const place = readPlace(mine?.to ?? info.place, datum);
  const kept = readPlace(info.place, datum);
  const isStep = usePointsLook((look) => look.typed === "step");
  const document = useApp((state) => state.document);
  return (
    <section className="points-sheet" aria-label={info.title}>
      <div className="points-scroll point-body">
        <div className="point-title">
          <h2>{info.title}</h2>
          <button type="button" className="button plain" onClick={() => app.getState().holdPoint(null)}>
            {t("points.held.all")}
          </button>
        </div>
        <p className="fine quiet">{aboutPoint(info, scene?.sides.length === 2)}</p>
        <div className="point-columns">
          <div>
            {elsewhere && <TriedElsewhere />}
            <DatumChooser />
            <TypedChooser />
            {DIRECTIONS.map((direction) => (
              <LengthField
                key={direction}
                label={t(`points.columns.${direction}`)}
                from={
                  isStep
                    ? t("points.fromHere")
                    : datum
                      ? t("points.fromDatum", { datum: datumName(datum.id) })
                      : t(`points.fromCar.${direction}`)
                }
                value_mm={place[direction] - (isStep ? kept[direction] : 0)}
                unit={unit}
                disabled={elsewhere}
                isStep={isStep}
                references={document ? pointSums(document, datum, direction, isStep ? kept[direction] : 0) : undefined}
                onChange={(value_mm) => tryCoordinate(info, direction, value_mm + (isStep ? kept[direction] : 0))}
                onKeep={() => keepTried(info)}
                onPutBack={() => app.getState().putBack()}
              />
            ))}
            <p className="fine quiet">{t(`points.held.${isStep ? "stepHint" : "placeHint"}`, { point: info.name })}</p>
            <MeaningChooser info={info} disabled={elsewhere} />
            <button type="button" className="button by-tape" onClick={() => placeByTape(info.name, "left")}>
              {t("points.held.byTape")}
            </button>
            <TapeDialog />
          </div>
          <div>
            {mine && (
              <div className="tried-strip" role="status">
                <span>
                  <Rich text={t("points.held.tried", { ...moveWords(info.place, mine.to, datum, unit) })} />
                </span>
                <em>{t("points.notKept")}</em>
              </div>
            )}
            {mine && error && (
              <p className="point-error" role="alert">
                {t("points.held.refused", { refusal })}
              </p>
            )}
            {mine && !error && <MoveEffects meaning={mine.meaning} />}
          </div>
        </div>
      </div>
      <div className="points-foot">
        {unchecked && (
          <p className="fine quiet" id={uncheckedId}>
            {t("points.held.unchecked")}
          </p>
        )}
        <button
          type="button"
          className="button"
          disabled={!mine && !troubled}
          aria-keyshortcuts="Escape"
          onClick={() => {
            forgetNonsense();
            app.getState().putBack();
          }}
        >
          <Rich text={t("points.held.putBack")} />
        </button>
        <button
          type="button"
          className="button go"
          disabled={!mine || error !== null || troubled}
          aria-keyshortcuts="Enter"
          aria-describedby={unchecked ? uncheckedId : undefined}
          onClick={() => keepTried(info)}
        >
          {t("points.held.keep")}
        </button>
      </div>
    </section>
  );
}

/** Enter keeps from anywhere that has no use of its own for it. */
function useEnterToKeep(info: PointInfo): void {
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      const isTaken =
        event.target instanceof Element && event.target.closest("button, input, select, textarea, a, [role]");
      if (event.key === "Enter" && !event.defaultPrevented && !isTaken) keepTried(info);
    };
    window.addEventListener("keydown", press);
    return () => window.removeEventListener("keydown", press);
  }, [info]);
}

/** What hangs on the point and how it stands, one thing after the other. */
function aboutPoint(info: PointInfo, isMirrored: boolean): string {
  const others = info.carries.filter((part) => !info.title.startsWith(part));
  const { followers } = info;
  const told = [
    info.name,
    others.length > 0 && t("points.held.carries", { parts: list(others) }),
    followers.length > 0 && t("points.held.follow", { parts: list(followers), count: followers.length }),
    info.hangsOn !== null && t("points.held.hangsOn", { point: info.hangsOn }),
    info.drawnAt !== null && t("points.held.boltedAway"),
    isMirrored && t("points.held.mirrored"),
  ];
  return told.filter(Boolean).join("; ");
}

const MOST_NAMES = 4;

function list(names: readonly string[]): string {
  const within = names.map(withinText);
  if (within.length <= MOST_NAMES) return listText(within);
  const shown = within.slice(0, MOST_NAMES - 1);
  return t("points.held.more", { parts: shown.join(", "), number: within.length - shown.length });
}
