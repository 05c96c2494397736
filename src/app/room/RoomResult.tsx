import type { Scene } from "../../scene/scene.ts";
import { app, useApp } from "../store/useApp.ts";
import { countText } from "../text/formats.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { lengthText } from "../words/number.ts";
import { MarkPicture } from "./RoomKey.tsx";
import { lookAtPlace, lookForRoom, showFromClose, stopLooking, wayText } from "./roomActions.ts";
import type { RoomForm } from "./roomForm.ts";
import { type RoomRun, useRoom } from "./roomStore.ts";
import { type ComingMap, gridOf, leaveOutName, markOf, type RoomSum } from "./roomTold.ts";
import { leftText, reasonText } from "./roomWords.ts";

const MOST_REASONS = 5;

/** How far the search is, and the way to end it. */
export function RoomProgressLine({ run, map, sum }: { run: RoomRun; map: ComingMap | null; sum: RoomSum | null }) {
  const unit = useApp((state) => state.unit);
  const level = useRoom((look) => look.level);
  const total = gridOf(run.question).count;
  const done = sum?.asked ?? 0;
  return (
    <div className="room-progress">
      <p role="status">
        {map ? t("room.progress", { done: countText(done), total: countText(total) }) : t("room.begins")}
      </p>
      <progress max={total} {...(map ? { value: done } : {})} aria-label={t("room.name")} />
      <p className="tool-note">
        {map && level > 0
          ? t("room.coarse", { step: lengthText(run.question.region.step_mm * 2 ** level, unit).replace(/\.0 /, " ") })
          : ""}
      </p>
      <button type="button" className="button" onClick={stopLooking}>
        {t("room.stop")}
      </button>
    </div>
  );
}

interface ResultProps {
  readonly form: RoomForm;
  readonly run: RoomRun;
  readonly map: ComingMap;
  readonly sum: RoomSum;
}

interface ReasonsProps {
  readonly form: RoomForm;
  readonly map: ComingMap;
  readonly sum: RoomSum;
  readonly scene: Scene;
}

/** How many places have room, and the best of them. */
export function RoomResult({ form, run, map, sum }: ResultProps) {
  const hasPlace = useRoom((look) => look.place !== null);
  const isRunning = useRoom((look) => look.isRunning);
  const total = gridOf(map).count;
  return (
    <section className="room-result" aria-label={t("room.name")}>
      <p className="room-head">
        <Rich
          text={t(sum.free === 0 ? "room.result_zero" : "room.result", {
            count: sum.free,
            number: countText(sum.free),
            asked: countText(sum.asked),
          })}
        />
      </p>
      {!isRunning && sum.asked < total && (
        <p className="tool-note">{t("room.stopped", { done: countText(sum.asked), total: countText(total) })}</p>
      )}
      {!isRunning && sum.asked < total && hasPlace && (
        <button type="button" className="button room-close" onClick={() => lookForRoom(form)}>
          {t("room.again")}
        </button>
      )}
      {sum.nearest >= 0 && <Best which="nearest" place={sum.nearest} map={map} />}
      {sum.roomiest >= 0 && sum.roomiest !== sum.nearest && <Best which="roomiest" place={sum.roomiest} map={map} />}
      {sum.free === 0 && !isRunning && <p>{t("room.noRoom")}</p>}
      <button type="button" className="button room-close" onClick={() => showFromClose(run)}>
        {t("room.closer")}
      </button>
    </section>
  );
}

/** What refuses the places without room, each with the way to leave it out where that can be. */
export function RoomReasons({ form, map, sum, scene }: ReasonsProps) {
  const shown = sum.refusals.slice(0, MOST_REASONS);
  const rest = sum.refusals.slice(MOST_REASONS);
  const restPlaces = rest.reduce((all, [, places]) => all + places, 0);
  if (shown.length === 0) return null;
  return (
    <section className="room-result" aria-label={t("room.refusedBy")}>
      <h2>{t("room.refusedBy")}</h2>
      <ul className="room-reasons">
        {shown.map(([number, places]) => {
          const reason = map.reasons[number]!;
          const name = leaveOutName(reason);
          const what = reasonText(reason, scene);
          return (
            <li key={number}>
              <span>
                {what}
                <small>{t("room.refuses", { count: places, number: countText(places) })}</small>
              </span>
              {name !== null && (
                <button
                  type="button"
                  className="button plain"
                  aria-label={t("room.leaveOutOf", { what })}
                  onClick={() => lookForRoom({ ...form, leaveOut: [...form.leaveOut, name] })}
                >
                  {t("room.leaveOut")}
                </button>
              )}
            </li>
          );
        })}
      </ul>
      {rest.length > 0 && (
        <p className="tool-note">
          {t("room.moreReasons", {
            places: t("room.refuses", { count: restPlaces, number: countText(restPlaces) }),
            number: rest.length,
          })}
        </p>
      )}
    </section>
  );
}

function Best({ which, place, map }: { which: "nearest" | "roomiest"; place: number; map: ComingMap }) {
  const unit = useApp((state) => state.unit);
  const chosen = useRoom((look) => look.place === place);
  const offset = gridOf(map).offsetOf(place);
  const isHere = offset.every((each) => Math.abs(each) < 1e-9);
  return (
    <button type="button" className="room-best" aria-pressed={chosen} onClick={() => lookAtPlace(place)}>
      <MarkPicture mark={markOf(map, place)} />
      <span>
        <Rich text={t(`room.${which}`, { way: isHere ? t("room.here") : wayText(offset) })} />
        <small>{t("room.leftOf", { left: leftText(map, place, unit) })}</small>
      </span>
    </button>
  );
}

/** Leaves the tried place. */
export function putBack(): void {
  app.getState().putBack();
}
