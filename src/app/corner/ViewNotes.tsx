import { useEffect, useState } from "react";
import { liveCorner } from "../store/corners.ts";
import { useApp } from "../store/useApp.ts";
import { travelText } from "../words/travel.ts";

const LATE_ms = 300;

/** What the view itself has to say: parts that are being made, a corner that locks. */
export function ViewNotes() {
  const scene = useApp((state) => state.scene);
  const error = useApp((state) => state.error);
  const unit = useApp((state) => state.unit);
  const building = useLate(useApp((state) => state.scene !== null && state.bodies.length === 0 && !state.error));
  const locks_mm = scene && liveCorner(scene, scene.sides[0]!).run.bindsAt_mm;
  return (
    <div className="view-notes">
      {building && (
        <p className="view-note" role="status">
          making the parts
        </p>
      )}
      {error && scene && (
        <p className="view-note" role="status">
          shown as it was before: {error.wrong}
        </p>
      )}
      {locks_mm !== null && (
        <p className="view-note limit" role="status">
          The corner locks at {travelText(locks_mm, unit)}; shown up to there
        </p>
      )}
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
