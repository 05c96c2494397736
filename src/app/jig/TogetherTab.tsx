import type { JigResult } from "../../studies/jig/jig.ts";
import type { Unit } from "../store/state.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { angleText, lengthText } from "../words/number.ts";
import { type JigAsked, useJigLook } from "./jigStore.ts";
import { SpreadPlot } from "./SpreadPlot.tsx";

/** What the tolerances of all mounts do together to the wheel. */
export function TogetherTab({ report }: { report: JigResult }) {
  const asked = useJigLook((look) => look.asked);
  const unit = useApp((state) => state.unit);
  const { angles, shareWithin, notTogether } = report;
  const percent = Math.round(100 * shareWithin);
  return (
    <>
      {asked.samples > 0 && (
        <div className="jig-share">
          <p>
            <b className="jig-number">{t("jig.percent", { percent })}</b>{" "}
            {t("jig.share", { samples: asked.samples, seed: asked.seed })}
          </p>
          <span className="jig-share-bar" aria-hidden="true">
            <span style={{ width: `${percent}%` }} />
          </span>
          {notTogether > 0 && <p className="gear-caution">{t("jig.notTogether", { count: notTogether })}</p>}
        </div>
      )}
      <p className="tool-note">{t("jig.plotKey")}</p>
      {READINGS.map(({ key, name }) => (
        <SpreadPlot
          key={key}
          name={t(`jig.readings.${name}`)}
          spread={angles[key]}
          asked={askedFor(name, asked)}
          text={textOf(name, unit)}
        />
      ))}
    </>
  );
}

type ReadingName = "toe" | "camber" | "halfTrack" | "wheelbase";

const READINGS = [
  { key: "toe_deg", name: "toe" },
  { key: "camber_deg", name: "camber" },
  { key: "halfTrack_mm", name: "halfTrack" },
  { key: "wheelbaseShift_mm", name: "wheelbase" },
] as const;

function askedFor(name: ReadingName, asked: JigAsked): number | null {
  if (name === "toe") return asked.toeWithin_deg;
  return name === "camber" ? asked.camberWithin_deg : null;
}

function textOf(name: ReadingName, unit: Unit): (value: number, signed: boolean) => string {
  return name === "toe" || name === "camber"
    ? (value, signed) => angleText(value, { signed })
    : (value, signed) => lengthText(value, unit, { signed });
}
