import { useEffect, useId } from "react";
import { isShownChecked } from "../store/isShownChecked.ts";
import { app, useApp } from "../store/useApp.ts";
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
import { DIRECTIONS, type Direction, datumOf, keepTried, readPlace, tryCoordinate } from "./usePointMove.ts";
import "./point.css";

const LABELS: Readonly<Record<Direction, { readonly name: string; readonly fromCar: string }>> = {
  forward: { name: "Forward", fromCar: "of axle" },
  out: { name: "Out", fromCar: "of centre" },
  up: { name: "Up", fromCar: "off ground" },
};

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
            All points
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
                label={LABELS[direction].name}
                from={isStep ? "from here" : datum ? `of ${datumName(datum.id)}` : LABELS[direction].fromCar}
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
            <p className="fine quiet">
              {isStep
                ? "Each number is a step from where the point is kept: −20 takes 20 off. "
                : "+20 adds 20 to what stands in the field; −20 is a place below zero: to take 20 off, write 440-20. "}
              ={info.name}+12 is 12 more than that point has.
            </p>
            <MeaningChooser info={info} disabled={elsewhere} />
            <button type="button" className="button by-tape" onClick={() => placeByTape(info.name, "left")}>
              Place it by tape…
            </button>
            <TapeDialog />
          </div>
          <div>
            {mine && (
              <div className="tried-strip" role="status">
                <span>
                  <b>{moveWords(info.place, mine.to, datum, unit).way}</b>{" "}
                  <span className="quiet">({moveWords(info.place, mine.to, datum, unit).far})</span>
                </span>
                <em>not kept yet</em>
              </div>
            )}
            {mine && error && (
              <p className="point-error" role="alert">
                {refusal} The car is shown as it is kept.
              </p>
            )}
            {mine && !error && <MoveEffects meaning={mine.meaning} />}
          </div>
        </div>
      </div>
      <div className="points-foot">
        {unchecked && (
          <p className="fine quiet" id={uncheckedId}>
            This move is not checked yet.
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
          Put it back <kbd className="key">Esc</kbd>
        </button>
        <button
          type="button"
          className="button go"
          disabled={!mine || error !== null || troubled}
          aria-keyshortcuts="Enter"
          aria-describedby={unchecked ? uncheckedId : undefined}
          onClick={() => keepTried(info)}
        >
          Keep this move
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

function aboutPoint(info: PointInfo, isMirrored: boolean): string {
  const others = info.carries.filter((part) => !info.title.startsWith(part));
  const parts = [
    others.length > 0 ? `also carries ${list(others)}` : "",
    info.followers.length > 0 ? `${list(info.followers)} ${info.followers.length > 1 ? "follow" : "follows"} it` : "",
    info.hangsOn ? `hangs on ${info.hangsOn} until it is moved itself` : "",
    info.drawnAt ? "bolted up away from where it is drawn" : "",
    isMirrored ? "the right side mirrors it" : "",
  ].filter(Boolean);
  return `${info.name}${parts.length > 0 ? `; ${parts.join("; ")}` : ""}`;
}

function list(names: readonly string[]): string {
  const words = names.map((name) => name.charAt(0).toLowerCase() + name.slice(1));
  if (words.length > 4) return `${words.slice(0, 3).join(", ")} and ${words.length - 3} more`;
  return words.length > 1 ? `${words.slice(0, -1).join(", ")} and ${words.at(-1)}` : (words[0] ?? "");
}
