import { useApp } from "../store/useApp.ts";
import { countText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { lengthText } from "../words/number.ts";
import { StageBar } from "./StageBar.tsx";
import { stopThinning, thinTo } from "./scanActions.ts";
import { useScan } from "./scanStore.ts";
import { reliesText, thinnedText } from "./words.ts";

const ERRORS_mm = [0.2, 0.5, 1, 2] as const;
/** A check of fewer triangles than this gains little from thinning out. */
const MANY = 60_000;

/** A scan with fewer triangles is checked faster; by how much it may be off is proved, and taken off every gap. */
export function ThinStep() {
  const { look, thinned, thinning, stage } = useScan();
  const unit = useApp((state) => state.unit);
  if (!look) return null;
  const isBusy = stage === "thinning";
  return (
    <>
      <p>{t(`scans.thin.${look.triangles > MANY ? "many" : "few"}`, { number: countText(look.triangles) })}</p>
      <p className="quiet">{t("scans.thin.proved")}</p>
      <fieldset className="scan-units">
        <legend>{t("scans.thin.label")}</legend>
        <label className="check-line">
          <input
            type="radio"
            name="scan-thinning"
            checked={!isBusy && thinned === null && thinning !== "nothing"}
            onChange={() => void thinTo(null)}
          />
          <span>{t("scans.thin.asItIs")}</span>
        </label>
        {ERRORS_mm.map((within_mm) => (
          <label key={within_mm} className="check-line">
            <input
              type="radio"
              name="scan-thinning"
              checked={thinned?.within_mm === within_mm}
              onChange={() => void thinTo(within_mm)}
            />
            <span>{t("scans.thin.within", { within: lengthText(within_mm, unit) })}</span>
          </label>
        ))}
      </fieldset>
      {isBusy && (
        <div role="status">
          <p>{t("scans.stages.thinning")}</p>
          <StageBar />
          <p>
            <button type="button" className="button" onClick={stopThinning}>
              {t("scans.stop")}
            </button>
          </p>
        </div>
      )}
      {!isBusy && thinning === "nothing" && <p role="status">{t("scans.thin.nothing")}</p>}
      {!isBusy && thinned && (
        <p role="status" className="scan-result">
          {thinnedText(thinned.within_mm, thinning && thinning !== "nothing" ? thinning.triangles : null, unit)}
        </p>
      )}
      <p className="quiet">{reliesText(look.isClosed)}</p>
    </>
  );
}
