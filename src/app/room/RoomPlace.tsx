import { length } from "../../maths/vec3.ts";
import type { Scene } from "../../scene/scene.ts";
import { MoveEffects } from "../points/MoveEffects.tsx";
import { useApp } from "../store/useApp.ts";
import { Rich } from "../text/Rich.tsx";
import { t } from "../text/text.ts";
import { lengthText } from "../words/number.ts";
import { refusalText } from "../words/refusal.ts";
import { PlaceCurves } from "./PlaceCurves.tsx";
import { MarkPicture } from "./RoomKey.tsx";
import { wayText } from "./roomActions.ts";
import type { RoomRun } from "./roomStore.ts";
import { type ComingMap, gridOf, markOf } from "./roomTold.ts";
import { isTriedThere } from "./roomTried.ts";
import { verdictText } from "./roomWords.ts";
import "../points/point.css";

interface PlaceProps {
  readonly run: RoomRun;
  readonly map: ComingMap;
  readonly place: number;
  readonly scene: Scene;
}

/** The place that is looked at: how far it is, what was told of it, its curves, and what the check says once it is tried. */
export function RoomPlace({ run, map, place, scene }: PlaceProps) {
  const unit = useApp((state) => state.unit);
  const isTried = useApp((state) => isTriedThere(state, run, place));
  const error = useApp((state) => state.error);
  const refusal = useApp(refusalText);
  const offset = gridOf(map).offsetOf(place);
  const far = length(offset);
  const meaning = run.question.fit === "cut" ? "cut" : "bolt";
  return (
    <section className="room-place" aria-label={t("room.place.title")}>
      <h2>{t("room.place.title")}</h2>
      <p className="room-where">
        <MarkPicture mark={markOf(map, place)} />
        <span>
          <b>
            {far < 1e-9 ? t("room.here") : t("room.place.far", { way: wayText(offset), far: lengthText(far, unit) })}
          </b>
          <br />
          {verdictText(map, run.question.limits, place, scene, unit)}
        </span>
      </p>
      <PlaceCurves run={run} place={place} />
      {isTried && (
        <div className="room-tried">
          <p>
            <Rich text={t("room.place.tried")} />
          </p>
          {error ? (
            <p className="point-error" role="alert">
              {refusal}
            </p>
          ) : (
            <MoveEffects meaning={meaning} />
          )}
        </div>
      )}
    </section>
  );
}
