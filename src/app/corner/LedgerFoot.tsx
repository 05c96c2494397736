import { showCautions } from "../shell/cautions.ts";
import { checkAgain, stopCheck } from "../store/begin.ts";
import { isExact, isShownChecked } from "../store/isShownChecked.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { MakeCardButton } from "./MakeCardButton.tsx";

/** What was checked, how far a running check is, and the way on. */
export function LedgerFoot() {
  return (
    <footer className="ledger-foot">
      <CheckLine />
      <AnewLine />
      <MakeCardButton />
      <p className="caution-line">
        {t("corner.foot.caution")}{" "}
        <button type="button" onClick={showCautions}>
          {t("corner.foot.cautions")}
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
        <span>{t("corner.foot.checking", { done: checking.pairsDone, total: checking.pairsTotal })}</span>
        <progress
          value={checking.pairsDone}
          max={Math.max(1, checking.pairsTotal)}
          aria-label={t("corner.foot.progress")}
        />
        <button type="button" className="button" onClick={stopCheck}>
          {t("corner.foot.stop")}
        </button>
      </div>
    );
  }
  if (trouble || stopped) {
    return (
      <div className="check-line" role="status">
        <span>{trouble ? t("corner.foot.brokeOff", { why: trouble }) : t("corner.foot.stopped")}</span>
        <button type="button" className="button" onClick={checkAgain}>
          {t("corner.foot.again")}
        </button>
      </div>
    );
  }
  return quiet ? null : <WholeTravel />;
}

/** That a worker stopped and another has done its work: the numbers are whole, but a car too large for the machine does it again. */
function AnewLine() {
  const why = useApp((state) => state.workAnew);
  if (why === null) return null;
  return (
    <div className="check-line" role="status">
      <span>{t("corner.foot.anew", { why })}</span>
      <button type="button" className="button" onClick={() => app.setState({ workAnew: null })}>
        {t("corner.foot.read")}
      </button>
    </div>
  );
}

/** What a finished check covers. */
function WholeTravel() {
  const poses = useApp((state) => state.scene?.powertrain.poses.length ?? 0);
  const sides = useApp((state) => state.scene?.sides.length ?? 0);
  const unit = useApp((state) => state.unit);
  const done = useApp((state) => isShownChecked(state) && state.result !== null && isExact(state.result));
  if (!done || !app.getState().scene) return <div className="check-line quiet">&nbsp;</div>;
  const engine = poses > 1 ? "poses" : "rest";
  return (
    <div className="check-line quiet">
      <span>{t(`corner.foot.whole.${engine}.${sides === 2 ? "both" : "one"}`, { poses })}</span>
      <span className="tabular">{t("corner.foot.within", { amount: unit === "in" ? "0.004 in" : "0.1 mm" })}</span>
      {sides === 2 && <span className="counted">{t("corner.foot.once")}</span>}
    </div>
  );
}
