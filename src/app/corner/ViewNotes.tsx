import { useEffect, useState } from "react";
import { keepTriedMove } from "../shell/keepTriedMove.ts";
import { liveCorner } from "../store/corners.ts";
import { findPair } from "../store/sessionActions.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { useTools } from "../tools/toolsStore.ts";
import { refusalText } from "../words/refusal.ts";
import { travelText } from "../words/travel.ts";
import { hiddenGroups, hiddenText } from "./groups.ts";

const LATE_ms = 300;

/** What the view itself has to say: parts that are being made, a corner that locks. */
export function ViewNotes() {
  const scene = useApp((state) => state.scene);
  const error = useApp((state) => state.error);
  const refusal = useApp(refusalText);
  const tried = useApp((state) => state.tried !== null);
  const unit = useApp((state) => state.unit);
  const building = useLate(useApp((state) => state.scene !== null && state.bodies.length === 0 && !state.error));
  const locks_mm = scene && liveCorner(scene, scene.sides[0]!).run.bindsAt_mm;
  return (
    <div className="view-notes">
      <TriedNote />
      <HiddenNote />
      {building && (
        <p className="view-note" role="status">
          {t("corner.notes.making")}
        </p>
      )}
      {error && scene && (
        <p className="view-note" role="status">
          {t(`corner.notes.${tried ? "asKept" : "asBefore"}`, { refusal })}
        </p>
      )}
      {locks_mm !== null && (
        <p className="view-note limit" role="status">
          {t("corner.notes.locks", { where: travelText(locks_mm, unit) })}
        </p>
      )}
    </div>
  );
}

/** A chosen touch on parts that the builder hid; the close look says so by itself. */
function HiddenNote() {
  const pair = useApp((state) => (state.chosenPair === null ? null : (findPair(state, state.chosenPair) ?? null)));
  const bodies = useApp((state) => state.bodies);
  const show = useApp((state) => state.show);
  const closeLook = useApp((state) => state.closeLook);
  const hidden = pair && !closeLook && hiddenText(hiddenGroups(pair, bodies, show));
  if (!hidden) return null;
  return (
    <p className="view-note" role="status">
      {t("corner.hiddenNote", { hidden })}
    </p>
  );
}

/** Where no sheet of the point or the part says so: what is shown is a move or an edit that is not kept. */
function TriedNote() {
  const isStudying = useTools(({ open }) => open === "studies");
  const isAlone = useApp((state) => state.place === "corner") || isStudying;
  const tried = useApp((state) => state.tried !== null || state.triedEdit !== null) && isAlone;
  const error = useApp((state) => state.error);
  if (!tried) return null;
  return (
    <div className="view-note tried" role="status">
      <b>{t("corner.notes.notKept")}</b>
      <button type="button" className="button" onClick={() => app.getState().putBack()}>
        {t("corner.notes.putBack")}
      </button>
      <button
        type="button"
        className="button go"
        disabled={error !== null}
        onClick={() => keepTriedMove(app.getState())}
      >
        {t("corner.notes.keep")}
      </button>
    </div>
  );
}

/** True once `now` has held for 0.3 s: shorter waits are not worth a word. */
function useLate(now: boolean): boolean {
  const [late, setLate] = useState(false);
  useEffect(() => {
    if (!now) {
      setLate(false);
      return;
    }
    const timer = setTimeout(() => setLate(true), LATE_ms);
    return () => clearTimeout(timer);
  }, [now]);
  return late;
}
