import { useApp } from "../store/useApp.ts";
import { lengthText } from "../words/number.ts";
import { StageBar } from "./StageBar.tsx";
import { stopThinning, thinTo } from "./scanActions.ts";
import { useScan } from "./scanStore.ts";
import { count, reliesText, stageText, thinnedText } from "./words.ts";

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
      <p>
        {count(look.triangles)} triangles.{" "}
        {look.triangles > MANY
          ? "Thinned out it is checked faster after every edit; 0.5 mm is far finer than a hand scanner sees."
          : "So few are checked quickly as they are."}
      </p>
      <p className="quiet">
        The file stays whole. What is checked is proved to be no farther off than you allow, and every gap to the scan
        is told smaller by that.
      </p>
      <fieldset className="scan-units">
        <legend>Check it</legend>
        <label className="check-line">
          <input
            type="radio"
            name="scan thinning"
            checked={!isBusy && thinned === null && thinning !== "nothing"}
            onChange={() => void thinTo(null)}
          />
          <span>as it is</span>
        </label>
        {ERRORS_mm.map((within_mm) => (
          <label key={within_mm} className="check-line">
            <input
              type="radio"
              name="scan thinning"
              checked={thinned?.within_mm === within_mm}
              onChange={() => void thinTo(within_mm)}
            />
            <span>thinned out, within {lengthText(within_mm, unit)}</span>
          </label>
        ))}
      </fieldset>
      {isBusy && (
        <div role="status">
          <p>{stageText("thinning")}</p>
          <StageBar />
          <p>
            <button type="button" className="button" onClick={stopThinning}>
              Stop
            </button>
          </p>
        </div>
      )}
      {!isBusy && thinning === "nothing" && (
        <p role="status">Nothing of it can go within that: it is checked as it is.</p>
      )}
      {!isBusy && thinned && (
        <p role="status" className="scan-result">
          {thinnedText(thinned.within_mm, thinning && thinning !== "nothing" ? thinning.triangles : null, unit)}
        </p>
      )}
      <p className="quiet">{reliesText(look.isClosed)}</p>
    </>
  );
}
