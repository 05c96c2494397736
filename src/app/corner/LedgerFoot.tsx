import { showCautions } from "../shell/cautions.ts";
import { checkAgain, stopCheck } from "../store/begin.ts";
import { isExact, isShownChecked } from "../store/isShownChecked.ts";
import { app, useApp } from "../store/useApp.ts";
import { MakeCardButton } from "./MakeCardButton.tsx";

/** What was checked, how far a running check is, and the way on. */
export function LedgerFoot() {
  return (
    <footer className="ledger-foot">
      <CheckLine />
      <MakeCardButton />
      <p className="caution-line">
        Shape only, parts that never bend: prove it by hand, spring out, on stands.{" "}
        <button type="button" onClick={showCautions}>
          Cautions
        </button>
      </p>
    </footer>
  );
}

/** How far a running check is, or why there is none; `quiet`: nothing once all is checked. */
export function CheckLine({ quiet = false }: { quiet?: boolean }) {
  const checking = useApp((state) => state.checking);
  const stopped = useApp((state) => state.checkStopped);
  const trouble = useApp((state) => state.workTrouble);
  if (checking) {
    return (
      <div className="check-line" role="status">
        <span>
          checking {checking.pairsDone} of {checking.pairsTotal} pairs
        </span>
        <progress value={checking.pairsDone} max={Math.max(1, checking.pairsTotal)} aria-label="Pairs checked" />
        <button type="button" className="button" onClick={stopCheck}>
          Stop
        </button>
      </div>
    );
  }
  if (trouble || stopped) {
    return (
      <div className="check-line" role="status">
        <span>{trouble ? `The check broke off: ${trouble}` : "Stopped: only part was checked"}</span>
        <button type="button" className="button" onClick={checkAgain}>
          Check again
        </button>
      </div>
    );
  }
  return quiet ? null : <WholeTravel />;
}

/** What a finished check covers. */
function WholeTravel() {
  const poses = useApp((state) => state.scene?.powertrain.poses.length ?? 0);
  const sides = useApp((state) => state.scene?.sides.length ?? 0);
  const unit = useApp((state) => state.unit);
  const done = useApp((state) => isShownChecked(state) && state.result !== null && isExact(state.result));
  if (!done || !app.getState().scene) return <div className="check-line quiet">&nbsp;</div>;
  const engine = poses > 1 ? `${poses} engine poses` : "engine at rest";
  return (
    <div className="check-line quiet">
      <span>
        Whole travel checked, {engine}, {sides === 2 ? "both sides" : "one side"}
      </span>
      <span className="tabular">to {unit === "in" ? "0.004 in" : "0.1 mm"}</span>
      {sides === 2 && <span className="counted">A pair that both sides have counts once.</span>}
    </div>
  );
}
