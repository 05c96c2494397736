import { useMemo } from "react";
import { keptSceneOf } from "../store/tried.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { RoomFormView } from "./RoomFormView.tsx";
import { RoomKey } from "./RoomKey.tsx";
import { RoomPlace } from "./RoomPlace.tsx";
import { putBack, RoomProgressLine, RoomReasons, RoomResult } from "./RoomResult.tsx";
import { RoomSlice } from "./RoomSlice.tsx";
import { lookForRoom, takePlace, tryPlaceThere } from "./roomActions.ts";
import { isOf } from "./roomEngine.ts";
import { asksElse, MOST_SHOWN, placesIn, type RoomForm, usualForm } from "./roomForm.ts";
import { type RoomRun, useRoom } from "./roomStore.ts";
import { type ComingMap, gridOf, sumOf } from "./roomTold.ts";
import { isTriedThere } from "./roomTried.ts";
import "./room.css";

/** Where a hard point may live: what is asked, how it comes on, and the place that is looked at. */
export function RoomPanel() {
  const document = useApp((state) => state.document);
  const fileName = useApp((state) => state.fileName);
  const heldPoint = useApp((state) => state.heldPoint);
  const hasScene = useApp((state) => state.scene !== null);
  const { form: asked, isFormOpen, run, map, version, isRunning, error, place } = useRoom();
  const scene = useMemo(
    () => (hasScene && document ? keptSceneOf(document, fileName) : null),
    [hasScene, document, fileName],
  );
  const form = useMemo(
    () => asked ?? (document && scene ? usualForm(document, scene, heldPoint) : null),
    [asked, document, scene, heldPoint],
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: the version stands for what the map's lists hold
  const sum = useMemo(() => map && sumOf(map, gridOf(map)), [map, version]);
  if (!document || !scene) return null;
  if (!form) return <p className="loads-scroll">{t("room.none")}</p>;
  const isOutdated = run !== null && !isOf(document, run);
  const isChanged = run !== null && !isOutdated && asksElse(form, scene, document, run.question);
  return (
    <>
      <div className="loads-scroll room-scroll">
        <details
          className="room-details room-question"
          open={isFormOpen}
          onToggle={(event) => useRoom.setState({ isFormOpen: event.currentTarget.open })}
        >
          <summary>{t("room.title")}</summary>
          <p className="tool-note">{t("room.lead")}</p>
          <RoomFormView form={form} document={document} scene={scene} />
        </details>
        {error && (
          <p className="room-trouble" role="alert">
            {t("room.noRegion", { wrong: error.wrong, wanted: error.wanted })}
          </p>
        )}
        {run && isRunning && <RoomProgressLine run={run} map={map} sum={sum} />}
        {isOutdated && (
          <p className="stale-line" role="status">
            {t("room.outdated")}
          </p>
        )}
        {isChanged && (
          <p className="stale-line" role="status">
            {t("room.changed")}
          </p>
        )}
        {run && map && sum && (
          <div className="room-told" data-stale={isOutdated}>
            <RoomResult form={form} run={run} map={map} sum={sum} />
            <RoomSlice map={map} run={run} scene={scene} />
            {place !== null && <RoomPlace run={run} map={map} place={place} scene={scene} />}
            <RoomReasons form={form} map={map} sum={sum} scene={scene} />
            <RoomKey marginUpTo_mm={map.marginUpTo_mm} />
            <p className="tool-note">{t("room.asked")}</p>
          </div>
        )}
        <p className="tool-note">{t("room.caution")}</p>
      </div>
      <RoomFoot form={form} run={run} map={map} wantsLook={isOutdated || isChanged} />
    </>
  );
}

interface FootProps {
  readonly form: RoomForm;
  readonly run: RoomRun | null;
  readonly map: ComingMap | null;
  /** What was told is not what is asked now. */
  readonly wantsLook: boolean;
}

/** What can be done next, always in view. */
function RoomFoot({ form, run, map, wantsLook }: FootProps) {
  const place = useRoom((look) => look.place);
  const isRunning = useRoom((look) => look.isRunning);
  const isTried = useApp((state) => run !== null && place !== null && isTriedThere(state, run, place));
  const isOtherTried = useApp(({ tried, triedEdit }) => tried !== null || triedEdit !== null) && !isTried;
  const hasError = useApp((state) => state.error !== null);
  const count = placesIn(form);
  const isUsable = run !== null && map !== null && place !== null && !wantsLook;
  const isHome =
    isUsable &&
    gridOf(map)
      .stepsOf(place)
      .every((step) => step === 0);
  return (
    <div className="points-foot room-foot">
      {isUsable && !isHome ? (
        <>
          {isOtherTried && <p className="fine quiet">{t("room.place.triedElsewhere")}</p>}
          {isTried ? (
            <button type="button" className="button" onClick={putBack}>
              {t("room.place.putBack")}
            </button>
          ) : (
            <button type="button" className="button" onClick={() => tryPlaceThere(place)}>
              {t("room.place.tryIt")}
            </button>
          )}
          <button type="button" className="button go" disabled={isTried && hasError} onClick={() => takePlace(place)}>
            {t("room.place.take")}
          </button>
        </>
      ) : (
        <button
          type="button"
          className="button go room-look"
          disabled={isRunning || !(count <= MOST_SHOWN)}
          onClick={() => lookForRoom(form)}
        >
          {run ? t("room.again") : t("room.look")}
        </button>
      )}
    </div>
  );
}
